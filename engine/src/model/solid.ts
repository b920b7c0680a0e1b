import type { Mesh } from '../numeric/mesh.ts'
import { crossingEdges, polygonIntegrals } from '../numeric/polygon.ts'
import type { Given } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { nearestId, type Problem } from '../working/problem.ts'
import { problemsOfEach } from './problemsOfEach.ts'
import type { ReadProject, Solid } from './schema/project.ts'

/**
 * Solids that enclose nothing, and meshes that are not there or do not say which way they lie: what a shape alone cannot say
 * of itself. Those of parts, and those that changes add.
 */
export function solidProblems(
  { parts, changes }: Pick<ReadProject, 'parts' | 'changes'>,
  meshes: ReadonlyMap<string, Mesh>,
  memory: Memory,
): readonly Problem[] {
  const of = (solids: readonly Solid[], ...place: string[]): readonly Problem[] => {
    const at = pointerOf(...place)
    return memory.once(`model/solids${at}`, [solids, meshes], () =>
      solids.flatMap((solid, i) => problemsOf(solid, `${at}/${i}`, meshes)),
    )
  }
  return [
    ...problemsOfEach(memory, 'model/solids', parts, [meshes], (id, { solids }) => of(solids, 'parts', id, 'solids')),
    ...problemsOfEach(memory, 'model/solids/added', changes, [meshes], (id, { added }) =>
      of(added?.solids ?? NONE, 'changes', id, 'added', 'solids'),
    ),
  ]
}

const NONE: readonly Solid[] = []

function problemsOf(solid: Solid, at: string, meshes: ReadonlyMap<string, Mesh>): Problem[] {
  switch (solid.shape) {
    case 'ring sector':
      return ringProblems(solid, at)
    case 'cylinder':
      return [...size(solid.radius), ...apart(solid, at)]
    case 'cone':
      return [
        ...(both(solid.radii, (r) => r === 0) ? [{ pointer: `${at}/radii`, ...nothing('two radii of zero') }] : []),
        ...apart(solid, at),
      ]
    case 'sphere':
      return size(solid.radius)
    case 'box':
      return solid.size.flatMap(size)
    case 'radial box':
      return [...size(solid.radial), ...size(solid.across), ...spanned(solid.along, at)]
    case 'revolution':
      return [...apart(solid, at), ...polygonProblems(solid.profile, `${at}/profile`)]
    case 'extrusion':
      return [...spanned(solid.between, at, 'between'), ...polygonProblems(solid.outline, `${at}/outline`)]
    case 'spherical cap':
      return [...size(solid.radius), ...apart(solid, at)]
    case 'mesh':
      return [...size(solid.scale), ...meshProblems(solid, at, meshes)]
    default:
      return solid satisfies never
  }
}

const numberOf = (input: Given): number => input.value as number
const both = (pair: readonly Given[], holds: (value: number) => boolean): boolean =>
  pair.every((p) => holds(numberOf(p)))
const nothing = (found: string) => ({ found, expected: 'a solid that encloses some volume' })

const size = (input: Given): Problem[] =>
  numberOf(input) > 0 ? [] : [{ pointer: input.pointer, found: 'zero', expected: 'more than zero', example: '1.2 m' }]

function spanned([from, to]: readonly [Given, Given], at: string, field = 'along'): Problem[] {
  return numberOf(from) === numberOf(to) ? [{ pointer: `${at}/${field}`, ...nothing('a span of no length') }] : []
}

/** Corners that go round no area, or a line that crosses or touches itself. */
function polygonProblems(corners: readonly (readonly [Given, Given])[], at: string): Problem[] {
  const polygon = corners.map(([a, b]) => [numberOf(a), numberOf(b)] as const)
  const crossing = crossingEdges(polygon)
  if (crossing !== undefined)
    return crossing.slice(1).map((edge) => ({
      pointer: `${at}/${edge}`,
      found: `an edge that meets the one from corner ${crossing[0] + 1}`,
      expected: 'a line that goes round once and nowhere meets itself',
    }))
  return polygonIntegrals(polygon).area === 0 ? [{ pointer: at, ...nothing('corners in one line') }] : []
}

function apart(solid: Pick<Extract<Solid, { shape: 'cylinder' }>, 'from' | 'to'>, at: string): Problem[] {
  const same = solid.from.every((c, i) => numberOf(c) === numberOf(solid.to[i] as Given))
  return same ? [{ pointer: `${at}/to`, ...nothing('the same centre as the other end') }] : []
}

const TURN = 2 * Math.PI * (1 + 1e-12)

function ringProblems(solid: Extract<Solid, { shape: 'ring sector' }>, at: string): Problem[] {
  const [from, to] = solid.angles.map(numberOf) as [number, number]
  return [
    ...(numberOf(solid.inner) < numberOf(solid.outer)
      ? []
      : [{ pointer: `${at}/outer`, found: `${numberOf(solid.outer)} m`, expected: 'more than the inner radius' }]),
    ...spanned(solid.along, at),
    ...(from === to ? [{ pointer: `${at}/angles`, ...nothing('a sector of no angle') }] : []),
    ...(Math.abs(to - from) <= TURN
      ? []
      : [{ pointer: `${at}/angles`, found: 'more than a whole turn', expected: 'at most 360 deg', example: '30 deg' }]),
  ]
}

function meshProblems(
  { file, axes }: Extract<Solid, { shape: 'mesh' }>,
  at: string,
  meshes: ReadonlyMap<string, Mesh>,
): Problem[] {
  const mesh = meshes.get(file)
  if (mesh === undefined) {
    const near = nearestId(file, meshes.keys())
    return [
      {
        pointer: `${at}/file`,
        found: `"${file}"`,
        expected: `the content hash of a closed mesh beside the project${near === undefined ? '' : `; did you mean "${near}"?`}`,
      },
    ]
  }
  if (mesh.axes === undefined || axes !== undefined) return []
  return [
    {
      pointer: `${at}/axes`,
      found: 'nothing, for a glTF file',
      expected:
        '"y up" where the file lies as its standard says, "machine" where it was written in the frame of the machine',
      example: 'y up',
    },
  ]
}
