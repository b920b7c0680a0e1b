import type { Utility } from '../model/index.ts'
import { type Answer, found, knownOr, sumOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import type { GroundCase } from './case.ts'
import { RING, SOIL } from './caution.ts'
import { restingOn } from './decision.ts'
import type { GroundStep } from './ground.ts'
import type { Haul } from './haul.ts'
import * as kinds from './kinds.ts'
import { type FieldPeak, finerAt, peakAnswer, peakOf, pressureField, type SurfaceLoad, wallGrid } from './surcharge.ts'
import type { WallRing } from './wall.ts'
import { weight } from './weight.ts'

/** Between two places of a trailer on its way, m: far less than it is long. */
const EVERY = 2

/** Where on a road one newton of a trailer presses most on the wall of the shaft. */
interface Passage {
  x: number
  y: number
  peak: FieldPeak
  finer: number
}

/** Every loaded trailer along every road that the project draws: what it does to the wall of the shaft where it presses most. */
export function roadChecks(
  c: GroundCase,
  ring: WallRing | undefined,
  haul: Haul,
  steps: readonly GroundStep[],
): Check[] {
  const { shaft, utilities, ground } = c.model.project
  if (shaft === undefined || ring?.outerRadius.value === undefined) return []
  const standing = steps.filter((s) => s.piece === haul.piece).flatMap((s) => (s.wall === undefined ? [] : [{ label: s.step, answer: s.wall.pressure }])) // biome-ignore format: one thought
  return Object.entries(utilities).flatMap(([id, road]) => {
    if (road.maxVehicle === undefined || road.line === undefined) return []
    const passage = passageOf(c, ring, haul, id, road)
    const inputs = [
      passage,
      haul.total,
      shaft,
      ground,
      ring.outerRadius,
      c.model.near,
      ...standing.map((s) => s.answer),
    ]
    return c.memory.once(`ground-road-check/${haul.id}/${haul.piece}/${id}`, inputs, () => [
      check({
        kind: kinds.haulWall,
        subject: { pointer: pointerOf('transports', haul.id), id: haul.id, name: `Trailer ${haul.id}` },
        of: `${haul.piece}/${id}`,
        title: `${kinds.haulWall.title}: ${haul.piece} along ${road.what}, at x ${passage.x.toFixed(1)} m, y ${passage.y.toFixed(1)} m`,
        demand: sumOf('on the wall, as if both pressed most at one place', 'Pa', [
          { label: 'trailer at its worst place', answer: pressureAt(haul, ring, passage) },
          ...standing,
        ]),
        capacity: knownOr(shaft.wall.surcharge, 'Pa', '/shaft/wall/surcharge'),
        near: c.model.near,
        assumptions: [
          `Every ${EVERY} m along the road, the platform along site x or y, whichever is nearer; with everything that stands there at the step that moves this piece.`,
          'Elastic ground; the road spreads nothing.',
          restingOn(ground, 'G3', 'G7'),
        ],
        cautions: [SOIL, RING],
      }),
    ])
  })
}

function passageOf(c: GroundCase, ring: WallRing, { id, transport }: Haul, road: string, { line }: Utility): Passage {
  const { shaft, ground } = c.model.project
  const [collar, base] = [shaft?.collar.value as number, shaft?.excavation.value as number]
  const [radius, surface] = [ring.outerRadius.value as number, ground?.surface.value ?? collar]
  const inputs = [radius, collar, base, surface, line, transport]
  return c.memory.once(`ground-road/${id}/${road}`, inputs, () => {
    const grid = wallGrid(radius, collar, base)
    const sides = transport.platform.map((side) => side.value as number) as [number, number]
    const passages = placesAlong(line ?? []).map(({ x, y, isAlongX }): Passage => {
      const size: SurfaceLoad['size'] = isAlongX ? sides : [sides[1], sides[0]]
      const load: SurfaceLoad = { force: 1, x, y, z: surface, size }
      const peak = peakOf(grid, pressureField(grid, load))
      return { x, y, peak, finer: finerAt(grid, load, peak) }
    })
    return passages.reduce((a, b) => (b.peak.pressure > a.peak.pressure ? b : a))
  })
}

/** Places on a way of straight stretches, both its ends among them. */
export function placesAlong(line: NonNullable<Utility['line']>): { x: number; y: number; isAlongX: boolean }[] {
  const corners = line.map(([x, y]) => [x.value as number, y.value as number] as const)
  return corners.flatMap(([x, y], i) => {
    const [u, v] = corners[i + 1] ?? corners[i - 1] ?? [x, y]
    const isAlongX = Math.abs(u - x) >= Math.abs(v - y)
    if (i === corners.length - 1) return [{ x, y, isAlongX }]
    const n = Math.max(1, Math.ceil(Math.hypot(u - x, v - y) / EVERY))
    return Array.from({ length: n }, (_, k) => ({ x: x + ((u - x) * k) / n, y: y + ((v - y) * k) / n, isAlongX }))
  })
}

function pressureAt({ piece, total }: Haul, ring: WallRing, { peak, finer }: Passage): Answer<'Pa'> {
  const force = weight(total)
  const W = force.value
  if (W === undefined) return found({ unit: 'Pa', value: undefined, method: 'weight by the pressure of one newton', inputs: { weight: force }, residuals: [] }) // biome-ignore format: one thought
  const all: FieldPeak = { ...peak, pressure: peak.pressure * W, mean: peak.mean * W, oval: peak.oval * W }
  return peakAnswer([{ label: `trailer with ${piece}`, force, finer }], ring.outerRadius, all)
}
