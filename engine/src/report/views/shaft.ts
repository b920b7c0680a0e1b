import { type Ground, type Shaft, wallRadius } from '../../model/index.ts'
import { box, line, type Mark, type PaperBox, type PaperPoint, type Shape } from '../drawing.ts'
import { grain, grainOf, hatch } from '../paper/hatch.ts'
import { EDGE, FINE, HIDDEN, OUTLINE, THIN } from '../paper/pen.ts'
import { onPaper, type Placing } from '../paper/scale.ts'

export { wallRadius }

/** A rectangle of the view on paper. */
export function rectangle(placing: Placing, left: number, right: number, bottom: number, top: number): PaperBox {
  const [x1, y1] = onPaper(placing, [left, top])
  const [x2, y2] = onPaper(placing, [right, bottom])
  return { left: x1, top: y1, right: x2, bottom: y2 }
}

/** What of a box lies in a room. */
export const within = (a: PaperBox, room: PaperBox): PaperBox => ({
  left: Math.max(a.left, room.left),
  top: Math.max(a.top, room.top),
  right: Math.min(a.right, room.right),
  bottom: Math.min(a.bottom, room.bottom),
})

/** Whether anything of a box is left. */
export const isThere = (b: PaperBox): boolean => b.right > b.left + 0.05 && b.bottom > b.top + 0.05

/** Layers of ground on both sides of the shaft, from the surface to the foot of the room: quiet tint and grain. */
export function groundMarks(ground: Ground, shaft: Shaft, placing: Placing, room: PaperBox): Mark[] {
  const outer = wallRadius(shaft)
  return Object.values(ground.layers).flatMap(({ name, top, bottom }) =>
    [-1, 1].flatMap((side) => {
      const [near, far] = [side * outer, side * (outer + 1000)]
      const whole = rectangle(
        placing,
        Math.min(near, far),
        Math.max(near, far),
        bottom.value as number,
        top.value as number,
      )
      const part = within(whole, room)
      return isThere(part)
        ? [
            box(part, { fill: 'ground' }),
            ...grain(grainOf(name), part),
            line(
              [
                [part.left, part.bottom],
                [part.right, part.bottom],
              ],
              FINE,
            ),
          ]
        : []
    }),
  )
}

const CONCRETE_SPACING = 2.4

/** Cut concrete: grey with wide oblique strokes. */
export function concrete(room: PaperBox): Mark[] {
  if (!isThere(room)) return []
  const shape: Shape = box(room, { fill: 'concrete', stroke: EDGE })
  return [shape, ...hatch(shape.loops, CONCRETE_SPACING, Math.PI / 4, { width: 0.13, ink: 'edge' })]
}

/** Wall, slab, capping beam and eyes of the shaft, cut along the drive. */
export function shaftMarks(shaft: Shaft, placing: Placing, room: PaperBox): Mark[] {
  const inner = (shaft.clearDiameter.value as number) / 2
  const outer = wallRadius(shaft)
  const collar = shaft.collar.value as number
  const slab = shaft.slabTop.value as number
  const toe = shaft.wall.toe.value as number
  const cut = (l: number, r: number, b: number, t: number): Mark[] =>
    concrete(within(rectangle(placing, l, r, b, t), room))
  const walls =
    outer > inner
      ? [-1, 1].flatMap((s) => cut(Math.min(s * inner, s * outer), Math.max(s * inner, s * outer), toe, collar))
      : faces(inner, toe, collar, placing)
  const base = cut(-inner, inner, slab - (shaft.slabThickness.value as number), slab)
  return [
    ...walls,
    ...base,
    ...beamMarks(shaft, cut),
    ...barrierMarks(shaft, placing),
    ...eyeMarks(shaft, placing, room),
  ]
}

function faces(inner: number, toe: number, collar: number, placing: Placing): Mark[] {
  return [-inner, inner].map((x) => line([onPaper(placing, [x, collar]), onPaper(placing, [x, toe])], OUTLINE))
}

/** The capping beam, cut on both sides. */
export function beamMarks(shaft: Shaft, cut: (l: number, r: number, b: number, t: number) => Mark[]): Mark[] {
  if (shaft.cappingBeam === undefined) return []
  const inner = (shaft.clearDiameter.value as number) / 2
  const [width, depth] = [shaft.cappingBeam.width.value as number, shaft.cappingBeam.depth.value as number]
  const top = shaft.collar.value as number
  return [-1, 1].flatMap((s) =>
    cut(Math.min(s * inner, s * (inner + width)), Math.max(s * inner, s * (inner + width)), top - depth, top),
  )
}

/** The barrier around the collar. */
export function barrierMarks(shaft: Shaft, placing: Placing): Mark[] {
  const inner = (shaft.clearDiameter.value as number) / 2
  const [collar, height] = [shaft.collar.value as number, shaft.barrier.value as number]
  return [-1, 1].map((s) =>
    line([onPaper(placing, [s * (inner + 0.4), collar]), onPaper(placing, [s * (inner + 0.4), collar + height])], EDGE),
  )
}

/** An eye is an opening in the wall: paper between its edges. */
export function eyeMarks(shaft: Shaft, placing: Placing, room: PaperBox): Mark[] {
  const inner = (shaft.clearDiameter.value as number) / 2
  const outer = wallRadius(shaft)
  return Object.values(shaft.eyes).flatMap(({ centre, diameter, side }) => {
    const s = side === '-x' ? -1 : 1
    const [z, r] = [centre.value as number, (diameter.value as number) / 2]
    const opening = within(
      rectangle(placing, Math.min(s * inner, s * outer), Math.max(s * inner, s * outer), z - r, z + r),
      room,
    )
    return isThere(opening) ? [box(opening, { fill: 'paper', stroke: side === '-x' ? THIN : HIDDEN })] : []
  })
}

/** Fixed things in the shaft as they are seen from the side, hidden behind the cut. */
export function obstructionMarks(
  shaft: Shaft,
  placing: Placing,
  room: PaperBox,
): { marks: Mark[]; labels: { words: string; at: PaperPoint }[] } {
  const boxes = Object.values(shaft.obstructions).map(({ what, x, z }) => ({
    what,
    box: within(
      rectangle(placing, x[0].value as number, x[1].value as number, z[0].value as number, z[1].value as number),
      room,
    ),
  }))
  return {
    marks: boxes.filter((b) => isThere(b.box)).map((b) => box(b.box, { stroke: HIDDEN })),
    labels: boxes.map(({ what, box: b }) => ({
      words: what,
      at: [(b.left + b.right) / 2, b.top] as PaperPoint,
    })),
  }
}
