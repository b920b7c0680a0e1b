"""Makes the shipped font, Shieldwright Sans, from the full Sofia Sans, and for paper with the letters of Noto Sans Hebrew and
Noto Sans Arabic (all SIL Open Font License 1.1). Run once; see docs/font.md.

    python3 scripts/font.py FOLDER_WITH_FULL_TTF_FILES assets/fonts engine/src/report/fontMetrics.ts

Needs fontTools and brotli (Debian: python3-fonttools python3-brotli).
"""

import sys
import unicodedata
from pathlib import Path

from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

FAMILY = "Shieldwright Sans"
WEIGHTS = {"Regular": 400, "SemiBold": 600, "Bold": 700}
RANGES = [(0x20, 0x7E), (0xA0, 0x17F), (0x386, 0x3CE), (0x400, 0x45F)]
SINGLES = (
    "\u2009\u200b\u2010\u2011\u2012\u2013\u2014\u2018\u2019\u201a\u201c\u201d\u201e\u2020\u2022\u2026\u202f\u2030\u2039\u203a\u20ac"
    "\u2070\u2074\u2075\u2076\u2077\u2078\u2079\u207b\u2080\u2081\u2082\u2083\u2084\u2085\u2086\u2087\u2088\u2089"
    "\u2116\u2122\u2190\u2191\u2192\u2193\u2194\u2202\u2206\u220f\u2211\u2212\u221a\u221e\u222b\u2248\u2260\u2264\u2265\u25cb\u25cf\u25ca"
)
HEBREW = [*range(0x5D0, 0x5EB), 0x5BE, 0x5F3, 0x5F4]
# Arabic and Persian letters that have presentation forms of their own, digits and signs.
ARABIC = [*range(0x621, 0x63B), *range(0x640, 0x64B), 0x67E, 0x686, 0x698, 0x6A9, 0x6AF, 0x6CC, *range(0x660, 0x66D), *range(0x6F0, 0x6FA), 0x60C, 0x61B, 0x61F]
LAM, ALEFS = 0x644, [0x622, 0x623, 0x625, 0x627]
FORMS = [*range(0xFB50, 0xFC00), *range(0xFE80, 0xFEFD)]
# Joiners and marks of direction: nothing is seen of them.
UNSEEN = [*range(0x200C, 0x2010), *range(0x2066, 0x206A)]
COPYRIGHTS = [f"Copyright 2022 The Noto Project Authors (https://github.com/notofonts/{script})" for script in ("hebrew", "arabic")]
# For the page all typographic features stay; on paper text is measured as a sum of advances, so only tabular figures stay.
PAGE_FEATURES = ["kern", "liga", "calt", "ccmp", "locl", "tnum", "pnum", "case", "mark"]
PAPER_FEATURES = ["tnum"]


def main(source: Path, target: Path, metrics: Path) -> None:
    runs = {}
    for style, weight in WEIGHTS.items():
        made(source, style, weight, PAGE_FEATURES, True).save(target / f"shieldwright-sans-{weight}.woff2")
        if style == "SemiBold":
            continue
        paper = made(source, style, weight, PAPER_FEATURES, False)
        paper.save(target / f"shieldwright-sans-{weight}.ttf")
        runs[weight] = advance_runs(paper), tabular_advance(paper)
    metrics.write_text(METRICS.format(**{f"w{w}": run for w, (run, _) in runs.items()}, tabular=tabular_text(runs), forms=forms_text(), lam_alef=lam_alef_text()))


def advance_runs(font: TTFont) -> str:
    """Runs of neighbouring code points: the first in hexadecimal, then the advances."""
    runs, last = [], None
    for code, name in sorted(font.getBestCmap().items()):
        if code - 1 != last:
            runs.append([f"{code:x}"])
        runs[-1].append(str(font["hmtx"][name][0]))
        last = code
    return "\n".join(f"    '{' '.join(run)}'," for run in runs)


def tabular_advance(font: TTFont) -> int:
    return font["hmtx"]["one.tf"][0]


def tabular_text(runs: dict) -> str:
    return ", ".join(f"{weight}: {tabular}" for weight, (_, tabular) in runs.items())


def forms_text() -> str:
    """Each letter that joins: the letter, its final, initial and medial form, a dash where it has none."""
    kinds = ("<final>", "<initial>", "<medial>")
    joining = [letter for letter in ARABIC if form_of("<final>", letter) != "-"]
    return "\n".join(f"  '{letter:x} {' '.join(form_of(kind, letter) for kind in kinds)}'," for letter in joining)


def lam_alef_text() -> str:
    """Each alef after lam: the alef, and the two as one, isolated and final."""
    return "\n".join(f"  '{alef:x} {form_of('<isolated>', LAM, alef)} {form_of('<final>', LAM, alef)}'," for alef in ALEFS)


def form_of(kind: str, *letters: int) -> str:
    wanted_form = " ".join([kind, *(f"{letter:04X}" for letter in letters)])
    return next((f"{code:x}" for code in FORMS if unicodedata.decomposition(chr(code)) == wanted_form), "-")


METRICS = """/**
 * Advance widths of the shipped font in thousandths of its size. Written by scripts/font.py; not to be edited by hand.
 * Each run: the first code point in hexadecimal, then the advances of it and its followers.
 */
export const ADVANCE_RUNS = {{
  400: [
{w400}
  ],
  700: [
{w700}
  ],
}} as const

/** Advance of every digit where figures are tabular. */
export const TABULAR_ADVANCE = {{ {tabular} }} as const

/** Letters of Arabic script that join, in hexadecimal: the letter, its final, initial and medial presentation form (Unicode), a dash where it has none. */
export const JOINING_FORMS = [
{forms}
] as const

/** What lam and an alef make together: the alef, the isolated and the final form of the two. */
export const LAM_ALEF = [
{lam_alef}
] as const
"""


def made(source: Path, style: str, weight: int, features: list, page: bool) -> TTFont:
    font = TTFont(next(source.rglob(f"SofiaSans_{weight}{style}.ttf")), recalcTimestamp=False)
    add_space(font, 0x202F, "uni202F", 150)
    add_space(font, 0x2009, "uni2009", 150)
    add_space(font, 0x200B, "uni200B", 0)
    add_superscript_minus(font)
    if not page:
        add_right_to_left(font, source, style, weight)
    options = Options()
    options.layout_features = features
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14, 16, 17]
    options.drop_tables += ["DSIG", "STAT"] if page else ["DSIG", "STAT", "GPOS", "GDEF"]
    options.hinting = False
    options.notdef_outline = True
    options.flavor = "woff2" if page else None
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=wanted(font, page))
    subsetter.subset(font)
    rename(font, style, weight)
    if not page:
        add_copyright(font)
    font.flavor = options.flavor
    return font


def wanted(font: TTFont, page: bool) -> list:
    there = font.getBestCmap()
    codes = [code for first, last in RANGES for code in range(first, last + 1)] + [ord(c) for c in SINGLES]
    right_to_left = [] if page else [*HEBREW, *ARABIC, *joining_forms(), *UNSEEN]
    return [code for code in [*codes, *right_to_left] if code in there]


def joining_forms() -> list:
    """Presentation forms of the letters taken, and of lam with alef; the isolated form of a letter is the letter itself."""
    return [code for code in FORMS if is_joined(*unicodedata.decomposition(chr(code)).split())]


def is_joined(form: str = "", *letters: str) -> bool:
    codes = [int(letter, 16) for letter in letters]
    known = bool(codes) and all(code in ARABIC for code in codes)
    if len(codes) == 2:
        return codes[0] == LAM and codes[1] in ALEFS and form in ("<isolated>", "<final>")
    return known and form in ("<initial>", "<medial>", "<final>")


def add_right_to_left(font: TTFont, source: Path, style: str, weight: int) -> None:
    """Letters of the two scripts, made smaller by as much as the capitals of their fonts are higher; nothing turns by itself."""
    for script, codes in ("Hebrew", HEBREW), ("Arabic", [*ARABIC, *joining_forms()]):
        other = TTFont(next(source.rglob(f"NotoSans{script}_{weight}{style}.ttf")))
        size = capital_height(font) / capital_height(other)
        for code in codes:
            add_scaled(font, other, code, size)
    for code in UNSEEN:
        add_space(font, code, f"uni{code:04X}", 0)


def capital_height(font: TTFont) -> float:
    return font["OS/2"].sCapHeight / font["head"].unitsPerEm


def add_scaled(font: TTFont, other: TTFont, code: int, size: float) -> None:
    name, glyphs = other.getBestCmap()[code], other.getGlyphSet()
    outline, pen = DecomposingRecordingPen(glyphs), TTGlyphPen(None)
    glyphs[name].draw(outline)
    outline.replay(TransformPen(pen, (size, 0, 0, size, 0, 0)))
    glyph = pen.glyph()
    glyph.recalcBounds(font["glyf"])
    add_glyph(font, code, f"uni{code:04X}", glyph, round(other["hmtx"][name][0] * size))


def add_glyph(font: TTFont, code: int, name: str, glyph, width: int) -> None:
    font.setGlyphOrder([*font.getGlyphOrder(), name])
    font["glyf"].glyphs[name] = glyph
    font["glyf"].glyphOrder = font.getGlyphOrder()
    font["hmtx"].metrics[name] = (width, getattr(glyph, "xMin", 0) if glyph.numberOfContours else 0)
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap[code] = name


def add_space(font: TTFont, code: int, name: str, width: int) -> None:
    if code not in font.getBestCmap():
        add_glyph(font, code, name, TTGlyphPen(None).glyph(), width)


def add_superscript_minus(font: TTFont) -> None:
    """Our own: the minus at the size and height of the superior figures."""
    glyphs, pen = font.getGlyphSet(), TTGlyphPen(None)
    size, rise = 0.62, 325
    glyphs["minus"].draw(TransformPen(pen, (size, 0, 0, size, 0, rise)))
    glyph = pen.glyph()
    glyph.recalcBounds(font["glyf"])
    add_glyph(font, 0x207B, "uni207B", glyph, round(font["hmtx"]["minus"][0] * size))


def add_copyright(font: TTFont) -> None:
    names = font["name"]
    names.setName("; ".join([names.getDebugName(0), *COPYRIGHTS]), 0, 3, 1, 0x409)


def rename(font: TTFont, style: str, weight: int) -> None:
    names = font["name"]
    plain = FAMILY.replace(" ", "")
    shown = "Bold" if weight == 700 else "Regular"
    for record in list(names.names):
        if record.nameID in (16, 17):
            names.removeNames(nameID=record.nameID)
    for name_id, text in {
        1: FAMILY if weight != 600 else f"{FAMILY} SemiBold",
        2: shown,
        3: f"{plain}-{style}; made from {names.getDebugName(3)}",
        4: f"{FAMILY} {style}",
        6: f"{plain}-{style}",
    }.items():
        names.setName(text, name_id, 3, 1, 0x409)
    names.names = [record for record in names.names if record.platformID == 3]


if __name__ == "__main__":
    main(*map(Path, sys.argv[1:4]))
