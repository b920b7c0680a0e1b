import { type Change, coordinates, type Instance, idsMeant, type Model, poseOfInstance } from '../model/index.ts'
import { type Bounds, boundsOf, boundsTogether } from '../numeric/body.ts'
import { norm, subtract, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { inForce } from './change.ts'
import { changeEntered } from './kinds.ts'
import type { PartMass } from './part.ts'
import { NONE_ALLOWED } from './partChecks.ts'

/** Every change in force: that its mass, its uncertainty and its place are there, and that they fit the part. */
export function changeChecks(model: Model, parts: Readonly<Record<string, PartMass>>, memory: Memory): Check[] {
  const { project, instances, near } = model
  return Object.entries(project.changes)
    .filter(([, change]) => inForce(change))
    .map(([id, change]) => {
      const named = change.parts.map((p) => idsMeant(instances, p).map((i) => instances.byId.get(i) as Instance))
      const reads = named.flat().flatMap((i) => [parts[i.entry], i.part.pattern])
      return memory.once(`mass-change-check/${id}`, [change, near, ...reads], () =>
        changeCheck(id, change, named, parts, near),
      )
    })
}

function changeCheck(
  id: string,
  change: Change,
  named: readonly (readonly Instance[])[],
  parts: Readonly<Record<string, PartMass>>,
  near: number,
): Check {
  const faults = named.flatMap((instances) => faultsOn(change, instances, parts))
  return check({
    kind: changeEntered,
    subject: { pointer: pointerOf('changes', id), id, name: change.what },
    demand: found({
      unit: '1',
      value: faults.length,
      method:
        'faults: what is added lies farther from its part than half its diagonal, or more is taken away than there is',
      inputs: inputsOf(id, change),
      residuals: [],
    }),
    capacity: NONE_ALLOWED,
    near,
    cautions: ['The piece is weighed again before it returns.'],
    found: faults,
  })
}

function inputsOf(id: string, { kind, factor, added }: Change): Record<string, Answer> {
  const at = pointerOf('changes', id)
  const renewed = { factor: knownOr(factor, '1', `${at}/factor`) }
  if (added === undefined && (kind === 'replace' || factor !== undefined)) return renewed
  return {
    ...(factor === undefined ? {} : renewed),
    mass: knownOr(added?.mass, 'kg', `${at}/added/mass`),
    uncertainty: knownOr(added?.uncertainty, '1', `${at}/added/uncertainty`),
    ...Object.fromEntries(
      [0, 1, 2].map((i) => [`place ${'xyz'[i]}`, knownOr(added?.at?.[i], 'm', `${at}/added/at/${i}`)]),
    ),
  }
}

function faultsOn(
  { added }: Change,
  instances: readonly Instance[],
  parts: Readonly<Record<string, PartMass>>,
): string[] {
  const first = instances[0] as Instance
  const { mass, shape } = parts[first.entry] as PartMass
  const total = (mass.value ?? 0) * instances.length
  const bounds = boundsTogether(instances.map((i) => boundsOf(shape.bodies, poseOfInstance(i))))
  const away = added?.at === undefined ? 0 : distanceTo(bounds, coordinates(added.at))
  return [
    ...(away > norm(subtract(bounds.max, bounds.min)) / 2
      ? [`${away.toFixed(2)} m away from ${first.entry}: another frame, sign or part?`]
      : []),
    ...((added?.mass.value ?? 0) < -total ? [`more is taken away than ${first.entry} has`] : []),
  ]
}

/** Distance of a point from a box, zero inside it. */
function distanceTo({ min, max }: Bounds, p: Vec3): number {
  const off = [0, 1, 2].map((i) =>
    Math.max(0, (min[i] as number) - (p[i] as number), (p[i] as number) - (max[i] as number)),
  )
  return norm(off as unknown as Vec3)
}
