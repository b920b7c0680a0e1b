import type { Ground, Shaft } from '../../model/index.ts'
import { pointerOf } from '../../working/pointer.ts'
import { box, line, type Mark, type PaperBox, type PaperPoint, standFor } from '../drawing.ts'
import { asOne, grain, grainsOf, hatch } from '../paper/hatch.ts'
import { EDGE, FINE, HIDDEN } from '../paper/pen.ts'
import { onPaper, type Placing } from '../paper/scale.ts'
import { isThere, rectangle, wallRadius, within } from '../views/shaft.ts'
import type { SiteSubject } from './subject.ts'
import { boreRadius, treatmentHalf } from './tunnel.ts'

/** Layers of ground, cut: on both sides of the shaft, and under its base between the walls. */
export function layerMarks(ground: Ground, shaft: Shaft | undefined, placing: Placing, window: PaperBox): Mark[] {
  const far = 10_000
  const outer = shaft === undefined ? 0 : wallRadius(shaft)
  const base =
    shaft === undefined
      ? Number.POSITIVE_INFINITY
      : (shaft.slabTop.value as number) - (shaft.slabThickness.value as number)
  return Object.entries(ground.layers).flatMap(([id, layer]) => {
    const [top, bottom] = [layer.top.value as number, layer.bottom.value as number]
    const parts = [
      rectangle(placing, -far, -outer, bottom, top),
      rectangle(placing, outer, far, bottom, top),
      ...(bottom < base ? [rectangle(placing, -outer, outer, bottom, Math.min(top, base))] : []),
    ]
      .map((p) => within(p, window))
      .filter(isThere)
    if (parts.length === 0) return []
    return [
      standFor(pointerOf('ground', 'layers', id), `${id}, ${layer.name}`, [
        ...parts.map((p) => box(p, { fill: 'ground' })),
        ...parts.flatMap((p) => grainsOf(layer.name).flatMap((kind) => asOne(grain(kind, p)))),
        ...parts.filter((p) => p.bottom < window.bottom - 0.05).map((p) => edge(p, p.bottom)),
      ]),
    ]
  })
}

const edge = ({ left, right }: PaperBox, y: number): Mark =>
  line(
    [
      [left, y],
      [right, y],
    ],
    FINE,
  )

/** The surface of the ground beside the shaft. */
export function surfaceLine(ground: Ground, shaft: Shaft | undefined, placing: Placing, window: PaperBox): Mark[] {
  const inner = shaft === undefined ? 0 : (shaft.clearDiameter.value as number) / 2
  const [left, y] = onPaper(placing, [-inner, ground.surface.value as number])
  const [right] = onPaper(placing, [inner, 0])
  const run = (a: number, b: number): PaperPoint[] => [
    [a, y],
    [b, y],
  ]
  return [
    line(run(window.left, Math.max(window.left, left)), EDGE),
    line(run(Math.min(window.right, right), window.right), EDGE),
  ]
}

/** Treated ground at the eyes, as high as the eye and its cover. */
export function treatedMarks(subject: SiteSubject, placing: Placing, window: PaperBox): Mark[] {
  const { ground, shaft } = subject.stages.model.project
  return Object.entries(ground?.treatments ?? {}).flatMap(([id, t]) => {
    const half = treatmentHalf(subject, t)
    const eye = t.eye === undefined ? undefined : shaft?.eyes[t.eye]
    if (half === undefined || eye === undefined) return []
    const [a, b] = t.along.map((x) => x.value as number) as [number, number]
    const z = eye.centre.value as number
    const part = within(rectangle(placing, Math.min(a, b), Math.max(a, b), z - half, z + half), window)
    if (!isThere(part)) return []
    const block = box(part, { stroke: HIDDEN })
    return [
      standFor(pointerOf('ground', 'treatments', id), t.what, [
        ...asOne(hatch(block.loops, 2.2, -Math.PI / 4, { width: 0.13, ink: 'edge' })),
        block,
      ]),
    ]
  })
}

/** The bore beside the shaft: driven and open behind it, only its edges ahead. */
export function boreMarks(subject: SiteSubject, placing: Placing, window: PaperBox): Mark[] {
  const { shaft } = subject.stages.model.project
  if (shaft === undefined) return []
  const outer = wallRadius(shaft)
  return Object.entries(shaft.eyes).flatMap(([id, eye]) => {
    const [z, r] = [eye.centre.value as number, boreRadius(subject, eye)]
    const back = eye.side === '-x'
    const part = within(rectangle(placing, back ? -10_000 : outer, back ? -outer : 10_000, z - r, z + r), window)
    if (!isThere(part)) return []
    const edges = [part.top, part.bottom].map((y) =>
      line(
        [
          [part.left, y],
          [part.right, y],
        ],
        back ? EDGE : HIDDEN,
      ),
    )
    const words = back ? 'the bore behind the shaft' : 'the drive to come'
    return [
      standFor(pointerOf('shaft', 'eyes', id), words, [...(back ? [box(part, { fill: 'paper' })] : []), ...edges]),
    ]
  })
}
