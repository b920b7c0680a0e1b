import type { ExclusionZone, LiftResult } from '../lift/index.ts'
import type { Bay, Model, Programme } from '../model/index.ts'
import type { Point2 } from '../numeric/plan.ts'
import type { StripResult } from '../strip/index.ts'
import { type Answer, found, given, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Activity } from './activity.ts'
import { unknownDurations } from './checks.ts'
import { type BayOfStep, baysOfSteps, HANDS, isBelow, isLifting, type Lifting } from './inShaft.ts'
import { floorEmpty, zoneClosed } from './kinds.ts'
import type { ProgrammeResult } from './programme.ts'

const CAUTIONS = ['A plan is no barrier: before every lift the zone is closed and those in the shaft are counted out.']

/** What the checks of people under lifts are made from. */
interface Under {
  lifts: Model['project']['lifts']
  pieces: Model['project']['pieces']
  /** Ids: where a bay lies says which zones meet it, and no more. */
  bays: ReadonlySet<string>
  programme: Programme
  activities: readonly Activity[]
  plan: ProgrammeResult['plan']
  bayOfStep: BayOfStep
}

/** For every lift of the plan: who is on a bay under it, and who is in the shaft below it. Practice 56 and 97. */
export function underLifts(
  model: Model,
  programme: Programme,
  strip: StripResult,
  lift: LiftResult,
  { activities, plan }: Pick<ProgrammeResult, 'activities' | 'plan'>,
  memory: Memory,
): readonly Check[] {
  const { bays, lifts, pieces, steps, settings } = model.project
  const froms = memory.settled('programme/steps-from', Object.fromEntries(strip.steps.map((s) => [s.step, s.from])))
  const ids = Object.keys(bays)
  const standing = [activities, plan, froms, programme, ids.join('\n'), lifts, pieces, steps, settings]
  const under: Under = memory.once('programme/under', standing, () => ({
    lifts,
    pieces,
    bays: new Set(ids),
    programme,
    activities: Object.values(activities),
    plan,
    bayOfStep: baysOfSteps(model, froms),
  }))
  const metBy = (of: string, zone: ExclusionZone, id: string): boolean =>
    memory.once(`programme-met/${of}/${id}`, [zone, bays[id]], () => meets(zone, bays[id] as Bay))
  const lifting = memory.once('programme/lifting', [activities], () => under.activities.filter(isLifting))
  const each = lifting.map((activity) => {
    const zone = memory.settled(`programme-zone/${activity.lift}`, lift.lifts[activity.lift]?.zone)
    const met = memory.once(`programme-under-zone/${activity.lift}`, [zone, bays], () =>
      zone === undefined ? [] : ids.filter((id) => metBy(activity.lift, zone, id)),
    )
    return memory.once(`programme-under/${activity.id}`, [under, zone, met.join('\n')], () => [
      zoneCheck(under, activity, zone, met),
      ...floorChecks(under, activity, zone),
    ])
  })
  return memory.once('programme/under-lifts', each, () => each.flat())
}

/** Activities under way while another is, with people at a place. */
function meanwhile({ activities, plan }: Under, lifting: Activity): Activity[] {
  const [from, to] = [plan[lifting.id]?.start ?? 0, plan[lifting.id]?.finish ?? 0]
  return activities.filter(({ id, kind }) => {
    const at = plan[id]
    if (id === lifting.id || at === undefined || kind === 'milestone') return false
    return Math.min(to, at.finish) - Math.max(from, at.start) > 1
  })
}

function zoneCheck(under: Under, lifting: Lifting, zone: ExclusionZone | undefined, met: readonly string[]): Check {
  const ids = new Set(met)
  const isUnder = (a: Activity): boolean => a.piece !== lifting.piece && baysOf(under, a).some((bay) => ids.has(bay))
  const there = meanwhile(under, lifting).filter(isUnder)
  // how long it takes is how long the zone is closed, and of what goes on under it whether it is over by then
  const lasting = [lifting, ...under.activities.filter((a) => a.unknown !== undefined && isUnder(a))]
  const inputs: Record<string, Answer> = {
    'width of the fall zone': zone?.margin ?? given('m', pointerOf('lifts', lifting.lift), undefined),
    ...Object.fromEntries(
      (zone?.tails ?? []).flatMap(({ of, standing, radius }) => [
        [`standing of ${of}`, standing],
        [`tail of ${of}`, radius],
      ]),
    ),
    ...unknownDurations(lasting),
  }
  return check({
    kind: zoneClosed,
    subject: subjectOf(under, lifting),
    of: lifting.id,
    demand: counted(there, 'activities on bays under the zone, at the same time in the plan', inputs),
    capacity: stated('1', 0, 'nobody'),
    near: 1,
    found: there.map(({ name }) => `${name}, at the same time`),
    assumptions: [
      ids.size === 0 ? 'The zone meets no bay.' : `The zone meets ${[...ids].map((id) => `bay ${id}`).join(', ')}.`,
      'The whole time of both counts; roads and gates are closed by the marshal.',
    ],
    cautions: CAUTIONS,
  })
}

/** Bays that an activity holds as its resources, else the one on which its piece lies while hands work on it. */
function baysOf({ bayOfStep, programme, bays }: Under, { needs, kind, step }: Activity): string[] {
  const held = Object.keys(needs)
    .map((id) => programme.resources[id]?.stands ?? id)
    .filter((id) => bays.has(id))
  const bay = HANDS.has(kind) && step !== undefined ? bayOfStep.get(step) : undefined
  return held.length > 0 || bay === undefined ? held : [bay]
}

function floorChecks(under: Under, lifting: Lifting, zone: ExclusionZone | undefined): Check[] {
  if (zone?.overShaft !== true) return []
  const { shaftFloor, sheltered } = under.programme.work ?? {}
  const roofed = new Set(sheltered?.kinds ?? [])
  const below = meanwhile(under, lifting).filter((a) => isBelow(a, under.bayOfStep, shaftFloor))
  const exposed = below.filter(({ kind }) => !roofed.has(kind))
  return [
    check({
      kind: floorEmpty,
      subject: subjectOf(under, lifting),
      of: lifting.id,
      demand: counted(
        exposed,
        'activities in the shaft at the same time in the plan, those under an accepted roof left out',
        {
          'floor of the shaft': given('1', '/programme/work/shaftFloor', shaftFloor === undefined ? undefined : 1),
          ...unknownDurations([lifting]),
        },
      ),
      capacity: stated('1', 0, 'nobody'),
      near: 1,
      found: exposed.map(({ name }) => `${name}, at the same time`),
      assumptions:
        sheltered === undefined || below.length === exposed.length
          ? []
          : [
              `Under a roof: ${below.length - exposed.length} activities, ${sheltered.by}; accepted by ${sheltered.acceptedBy}.`,
            ],
      cautions: CAUTIONS,
    }),
  ]
}

const counted = (activities: readonly Activity[], method: string, inputs: Record<string, Answer>): Answer<'1'> =>
  found({ unit: '1', value: activities.length, method, inputs, residuals: [] })

const subjectOf = ({ lifts, pieces }: Under, { lift, name }: Lifting) => ({
  pointer: pointerOf('lifts', lift),
  id: lift,
  name: `${pieces[lifts[lift]?.piece ?? '']?.name ?? name}: ${name}`,
})

/** Whether an exclusion zone meets a bay in plan. */
export function meets({ fall, tails }: ExclusionZone, { centre, size }: Bay): boolean {
  const [x, y] = centre.map((v) => v.value as number) as [number, number]
  const [a, b] = size.map((v) => (v.value as number) / 2) as [number, number]
  const corners: Point2[] = [
    [x - a, y - b],
    [x + a, y - b],
    [x + a, y + b],
    [x - a, y + b],
  ]
  if (fall.some((outline) => overlap(outline, corners))) return true
  return tails.some(({ centre, radius }) => {
    if (centre === undefined || radius.value === undefined) return false
    return Math.hypot(Math.max(0, Math.abs(centre[0] - x) - a), Math.max(0, Math.abs(centre[1] - y) - b)) < radius.value
  })
}

/** Two convex outlines overlap unless a line along an edge of one of them parts them. */
function overlap(a: readonly Point2[], b: readonly Point2[]): boolean {
  return ![...normalsOf(a), ...normalsOf(b)].some((n) => parted(a, b, n))
}

const normalsOf = (outline: readonly Point2[]): Point2[] =>
  outline.map(([x, y], i) => {
    const [u, v] = outline[(i + 1) % outline.length] as Point2
    return [v - y, x - u]
  })

function parted(a: readonly Point2[], b: readonly Point2[], [nx, ny]: Point2): boolean {
  const along = (p: Point2): number => p[0] * nx + p[1] * ny
  const [fromA, fromB] = [a.map(along), b.map(along)]
  return Math.max(...fromA) < Math.min(...fromB) || Math.max(...fromB) < Math.min(...fromA)
}
