import { type Change, coordinates, type Instance, type Instances, idsMeant, poseOfInstance } from '../model/index.ts'
import { add, addMatrix, type Mat3, place, scale, scaleMatrix, subtract, type Vec3, ZERO } from '../numeric/vector.ts'
import { knownOr, stated } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { renewedMass, sharedMass } from './change.formulas.ts'
import { type Lump, lumpOf, type Member, NO_SPREAD } from './lump.ts'
import { outer } from './part.ts'
import { standardUncertainty } from './set.formulas.ts'

export type Changes = Readonly<Record<string, Change>>

/** What the changes in force do to a set. */
export interface Changed {
  /** Terms of the set as it goes back. */
  lumps: readonly Lump[]
  /** Old parts that do not go back: replaced, or scrapped. */
  removed: readonly Lump[]
  /** What is new in it: in the place of old parts, or added (negative: taken away). */
  fresh: readonly Lump[]
}

/** Only what is approved or done goes back; a proposal weighs nothing yet. */
export const inForce = ({ status }: Change): boolean => status === 'approved' || status === 'done'

/**
 * The set as it goes back: scrapped parts gone, parts renewed by a factor, masses added at their places.
 *
 * A mass added to an entry of several parts is the total over them, its place their common centre: each part takes an equal
 * share, as far from that centre as the part's own centroid is from the middle of all.
 */
export function changed(members: readonly Member[], changes: Changes, instances: Instances): Changed {
  const acting = Object.entries(changes).filter(([, change]) => inForce(change))
  const groups = members.flatMap((member) => groupsOf(member, acting, instances))
  const kept = groups.filter((g) => g.renewedBy.length === 0 && !g.scrapped).map((g) => lumpOf(g.member))
  const removed = groups.filter((g) => g.renewedBy.length > 0 || g.scrapped).map((g) => lumpOf(g.member))
  const inPlace = groups.filter((g) => g.renewedBy.length > 0 && !g.scrapped).map(renewedLump)
  const added = acting.flatMap(([id, change]) => addedLumps(id, change, members, instances))
  return { lumps: [...kept, ...inPlace, ...added], removed, fresh: [...inPlace, ...added] }
}

type Acting = readonly (readonly [id: string, change: Change])[]

interface Group {
  member: Member
  scrapped: boolean
  renewedBy: Acting
}

/** A member split by which renewals reach which of its instances. */
function groupsOf(member: Member, acting: Acting, instances: Instances): Group[] {
  const renewals = acting.filter(([, change]) => renews(change))
  const byRenewal = new Map<string, { instances: Instance[]; renewedBy: Acting }>()
  for (const instance of member.instances) {
    const renewedBy = renewals.filter(([, { parts }]) =>
      parts.some((p) => idsMeant(instances, p).includes(instance.id)),
    )
    const key = renewedBy.map(([id]) => id).join(' ')
    const group = byRenewal.get(key)
    if (group === undefined) byRenewal.set(key, { instances: [instance], renewedBy })
    else group.instances.push(instance)
  }
  return [...byRenewal.values()].map((group) => ({
    member: { part: member.part, instances: group.instances },
    scrapped: member.instances[0]?.part.fate === 'scrapped',
    renewedBy: group.renewedBy,
  }))
}

/** A part is renewed by a factor; a replacement that says neither factor nor mass is one whose factor is missing. */
const renews = ({ kind, factor, added }: Change): boolean =>
  factor !== undefined || (kind === 'replace' && added === undefined)

function renewedLump({ member, renewedBy }: Group): Lump {
  return renewedBy.reduce((lump, [id, change]) => renewed(lump, id, change), lumpOf(member))
}

function renewed(old: Lump, id: string, change: Change): Lump {
  const factor = knownOr(change.factor, '1', pointerOf('changes', id, 'factor'))
  return {
    ...old,
    label: `${old.label}, new by ${id}`,
    mass: renewedMass.show({ f: factor, m: old.mass }),
    uncertainty: renewedMass.show({ f: factor, m: old.uncertainty }),
    spread: scaleMatrix(old.spread, factor.value ?? 0),
  }
}

function addedLumps(id: string, change: Change, members: readonly Member[], instances: Instances): Lump[] {
  if (change.added === undefined && renews(change)) return []
  return change.parts.flatMap((named) => {
    const meant = idsMeant(instances, named).map((i) => instances.byId.get(i) as Instance)
    return members.flatMap(({ part, instances: own }) => {
      const here = meant.filter((i) => own.some((o) => o.id === i.id))
      return here.length === 0 ? [] : [addedLump({ id, change, named, meant, here, centroid: part.shape.centroid })]
    })
  })
}

interface Added {
  id: string
  change: Change
  named: string
  /** Every instance the mass is shared among, and those of them in the set. */
  meant: readonly Instance[]
  here: readonly Instance[]
  centroid: Vec3
}

function addedLump({ id, change, named, meant, here, centroid }: Added): Lump {
  const at = pointerOf('changes', id, 'added')
  const { added } = change
  const all = knownOr(added?.mass, 'kg', `${at}/mass`)
  const share = knownOr(added?.uncertainty, '1', `${at}/uncertainty`)
  const mass = here.length === meant.length ? all : sharedMass.show({ m: all, ...counts(named, here, meant) })
  const centres = meant.map((i) => place(poseOfInstance(i), centroid))
  const middle = middleOf(centres)
  const whole = added?.at === undefined ? middle : coordinates(added.at)
  const points = here.map((i) => add(whole, subtract(centres[meant.indexOf(i)] as Vec3, middle)))
  const cog = middleOf(points)
  return {
    label: `${id} on ${here.length === 1 ? (here[0] as Instance).id : `${named} × ${here.length}`}`,
    mass,
    uncertainty: standardUncertainty.show({ m: mass, s: share }),
    basis: added?.basis ?? 'estimated',
    cog,
    spread: spreadOf(points, cog, (all.value ?? 0) / meant.length),
    place: placeOf(id, change, at),
  }
}

const middleOf = (points: readonly Vec3[]): Vec3 => scale(points.reduce(add, ZERO), 1 / points.length)

function counts(named: string, here: readonly Instance[], meant: readonly Instance[]) {
  return {
    n: stated('1', here.length, `of ${named} in the set`),
    N: stated('1', meant.length, `of ${named} in the machine`),
  }
}

function placeOf(id: string, { added }: Change, at: string): Lump['place'] {
  const axes = added?.at ?? [undefined, undefined, undefined]
  return Object.fromEntries(axes.map((c, i) => [`${id}: ${'xyz'[i]}`, knownOr(c, 'm', `${at}/at/${i}`)]))
}

/** Point masses about their common centre; what is added has no extent of its own. */
function spreadOf(points: readonly Vec3[], cog: Vec3, mass: number): Mat3 {
  return points.reduce((sum, p) => addMatrix(sum, scaleMatrix(outer(subtract(p, cog)), mass)), NO_SPREAD)
}
