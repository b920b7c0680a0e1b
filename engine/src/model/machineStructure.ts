import { type Polygon, polygonIntegrals } from '../numeric/polygon.ts'
import type { Given } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Problem } from '../working/problem.ts'
import { type Instances, idsMeant } from './instance.ts'
import { ofParts } from './ofParts.ts'
import { problemsOfEach } from './problemsOfEach.ts'
import type { Part, ReadProject, Solid } from './schema/project.ts'

/** Joints and services of a thing with itself, ids meant twice, parts twice in a piece, masses no material explains. */
export function machineProblems(project: ReadProject, instances: Instances, memory: Memory): Problem[] {
  const { joints, services, ends, pieces, parts, materials } = project
  // Ids are made of names and patterns alone: a new mass makes none.
  const named = ofParts(parts, memory, 'ids', () => [])
  return [
    ...problemsOfEach(memory, 'model/structure/joints', joints, [], (id, j) =>
      sameEnds(`/joints/${id}/between/1`, j.between, 'a joint holds two parts together'),
    ),
    ...problemsOfEach(memory, 'model/structure/services', services, [], (id, s) =>
      sameEnds(`/services/${id}/to`, [s.from, s.to], 'a service runs from one thing to another'),
    ),
    ...memory.once('model/structure/ids', [ends, named], () => takenIds(project, instances)),
    ...memory.once('model/structure/pieces', [pieces, named], () =>
      Object.entries(pieces).flatMap(([id, p]) => partsTwice(`/pieces/${id}/parts`, p.parts, instances)),
    ),
    ...problemsOfEach(memory, 'model/structure/masses', parts, [materials], (id, p) => {
      const density = materials[p.material]?.density
      return memory.once(`model/structure/mass/${id}`, [p, density], () => massProblems(id, p, density))
    }),
  ]
}

const sameEnds = (pointer: string, [a, b]: readonly [string, string], because: string): Problem[] =>
  a === b ? [{ pointer, found: `"${b}" again`, expected: `another one: ${because}` }] : []

/** `A-01` as an entry, beside a pattern `A`, would name two parts; an end outside the machine with a part's id too. */
function takenIds({ parts, ends }: ReadProject, instances: Instances): Problem[] {
  const byPattern = new Map(
    [...instances.ofEntry]
      .flatMap(([entry, all]) => all.map(({ id }) => [id, entry] as const))
      .filter(([id, e]) => id !== e),
  )
  const entries = Object.keys(parts).filter((id) => byPattern.has(id))
  const outside = Object.keys(ends).filter((id) => Object.hasOwn(parts, id) || byPattern.has(id))
  return [
    ...entries.map((id) => taken(pointerOf('parts', id), `a part of the pattern of "${byPattern.get(id)}"`)),
    ...outside.map((id) => taken(pointerOf('ends', id), 'a part of the machine')),
  ]
}

const taken = (pointer: string, by: string): Problem => ({
  pointer,
  found: `an id that ${by} has already`,
  expected: 'an id of its own',
})

function partsTwice(at: string, parts: readonly string[], instances: Instances): Problem[] {
  const seen = new Set<string>()
  return parts.flatMap((named, i) =>
    idsMeant(instances, named).flatMap((part): Problem[] => {
      const again = seen.has(part)
      seen.add(part)
      return again
        ? [{ pointer: `${at}/${i}`, found: `"${part}" a second time`, expected: 'each part once in a piece' }]
        : []
    }),
  )
}

/** Denser than any metal a machine is made of; tungsten has 19 300 kg/m³. */
const DENSEST = 20_000
/** A mass so far below what shape and material give is a slip of a unit, not a rough shape. */
const LEAST_SHARE = 1 / 500

/** Rough bounds for slips of a unit; the mass stage holds every mass against its exact volume. */
function massProblems(id: string, part: Part, density: Given | undefined): Problem[] {
  const mass = part.mass?.value
  const drawn = part.solids.filter((s) => s.op === 'add')
  if (mass?.value === undefined || density?.value === undefined || drawn.some((s) => s.shape === 'mesh')) return []
  const volume = drawn.reduce((sum, s) => sum + volumeOf(s), 0)
  const explained = drawn.reduce((sum, s) => sum + volumeOf(s) * (s.fill?.value ?? 1), 0) * density.value
  const found = `${mass.value} kg in ${Number(volume.toPrecision(3))} m3`
  const pointer = pointerOf('parts', id, 'mass', 'value')
  if (mass.value > volume * DENSEST)
    return [{ pointer, found, expected: `at most ${DENSEST} kg/m3: no metal is denser` }]
  return mass.value < explained * LEAST_SHARE
    ? [{ pointer, found, expected: `about ${Math.round(explained)} kg, as its shape and material give` }]
    : []
}

const n = (input: Given): number => input.value as number
const apart = (a: readonly Given[], b: readonly Given[]): number =>
  Math.hypot(...a.map((x, i) => n(x) - n(b[i] as Given)))

function volumeOf(solid: Solid): number {
  switch (solid.shape) {
    case 'ring sector':
      return Math.abs(
        ((n(solid.outer) ** 2 - n(solid.inner) ** 2) / 2) *
          (n(solid.angles[1]) - n(solid.angles[0])) *
          (n(solid.along[1]) - n(solid.along[0])),
      )
    case 'cylinder':
      return Math.PI * n(solid.radius) ** 2 * apart(solid.from, solid.to)
    case 'cone': {
      const [a, b] = [n(solid.radii[0]), n(solid.radii[1])]
      return (Math.PI / 3) * (a * a + a * b + b * b) * apart(solid.from, solid.to)
    }
    case 'sphere':
      return (4 / 3) * Math.PI * n(solid.radius) ** 3
    case 'box':
      return solid.size.reduce((v, s) => v * n(s), 1)
    case 'radial box':
      return Math.abs(n(solid.radial) * n(solid.across) * (n(solid.along[1]) - n(solid.along[0])))
    case 'revolution':
      return Math.abs(revolved(solid.profile.map(([x, r]) => [n(x), n(r)])))
    case 'extrusion':
      return Math.abs(
        polygonIntegrals(solid.outline.map(([a, b]) => [n(a), n(b)])).area *
          (n(solid.between[1]) - n(solid.between[0])),
      )
    case 'spherical cap': {
      const h = apart(solid.from, solid.to)
      return ((Math.PI * h) / 6) * (3 * n(solid.radius) ** 2 + h * h)
    }
    case 'mesh':
      return 0
    default:
      return solid satisfies never
  }
}

/** Area times the way of its centroid about the axis (Pappus; from memory). */
function revolved(profile: Polygon): number {
  const { area, centroid } = polygonIntegrals(profile)
  return 2 * Math.PI * centroid[1] * area
}
