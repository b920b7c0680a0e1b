"""Makes the shipped font, Shieldwright Sans, from the full Sofia Sans (SIL Open Font License 1.1). Run once; see docs/font.md.

    python3 scripts/font.py FOLDER_WITH_FULL_TTF_FILES assets/fonts engine/src/report/fontMetrics.ts

Needs fontTools and brotli (Debian: python3-fonttools python3-brotli).
"""

import sys
from pathlib import Path

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
    metrics.write_text(METRICS.format(**{f"w{w}": run for w, (run, _) in runs.items()}, tabular=tabular_text(runs)))


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
"""


def made(source: Path, style: str, weight: int, features: list, page: bool) -> TTFont:
    font = TTFont(next(source.rglob(f"SofiaSans_{weight}{style}.ttf")), recalcTimestamp=False)
    add_space(font, 0x202F, "uni202F", 150)
    add_space(font, 0x2009, "uni2009", 150)
    add_space(font, 0x200B, "uni200B", 0)
    add_superscript_minus(font)
    options = Options()
    options.layout_features = features
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14, 16, 17]
    options.drop_tables += ["DSIG", "STAT"] if page else ["DSIG", "STAT", "GPOS", "GDEF"]
    options.hinting = False
    options.notdef_outline = True
    options.flavor = "woff2" if page else None
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=wanted(font))
    subsetter.subset(font)
    rename(font, style, weight)
    font.flavor = options.flavor
    return font


def wanted(font: TTFont) -> list:
    there = font.getBestCmap()
    codes = [code for first, last in RANGES for code in range(first, last + 1)] + [ord(c) for c in SINGLES]
    return [code for code in codes if code in there]


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
