import { subtract, type Vec3 } from '../numeric/vector.ts'
import { type Answer, knownOr, leastOf, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { RIGGING_CAUTIONS } from './caution.ts'
import { heightToSpare } from './hang.ts'
import { legAngle, stability, tilt } from './kinds.ts'
import { legEnds } from './legResult.ts'
import type { Pick } from './pick.ts'
import type { RigLeg } from './rig.ts'
import { dropBelowPoints, type Suspension } from './suspension.ts'

/** Tilt, stability and the angles of the legs. A piece that is turned is not meant to hang level: its turn is checked. */
export function hangChecks(pick: Pick, suspension: Suspension): Check[] {
  const tilts = pick.lift.kind === 'turn' ? [] : [tiltCheck(pick, suspension)]
  const corners = pick.lift.kind === 'turn' ? [] : [cornerCheck(pick, suspension)]
  return [...tilts, stabilityCheck(pick, suspension), ...corners, ...angleChecks(pick, suspension)]
}

function tiltCheck(pick: Pick, suspension: Suspension): Check {
  const { tilt: planned, worstTilt, links } = suspension
  const { trial } = pick.lift.arranged
  return check({
    kind: tilt,
    subject: pick.subject,
    demand: trial === undefined ? worstTilt : planned,
    capacity: knownOr(pick.settings.tilt, 'rad', '/settings/tilt'),
    near: pick.near,
    assumptions: [
      trial === undefined
        ? 'From the attitude in which it is taken up, at the worst corner of lengths and centre of gravity: no trial lift is arranged that would show how it hangs.'
        : 'From the attitude in which it is taken up, by the planned centre of gravity and lengths; the trial lift shows the rest.',
      ...(worstTilt.value === undefined ? [] : [`Worst corner of the tolerances: ${degrees(worstTilt.value)}.`]),
      ...links.map(
        (l) => `${l.item} on ${l.leg} set to ${lengthText(l.setting.value)} of ${lengthText(l.stroke.value)}.`,
      ),
    ],
    found: [
      ...slackText(suspension).map((text) => text.replace(/\.$/, '')),
      `it hangs ${degrees(planned.value ?? 0)} out of level with these lengths and this centre of gravity: other lengths, a level link, or points about the centre of gravity bring it level`,
    ],
  })
}

const degrees = (rad: number): string => `${((rad * 180) / Math.PI).toFixed(1)}°`
const lengthText = (m: number | undefined): string => (m === undefined ? 'open' : `${(m * 1000).toFixed(0)} mm`)

function stabilityCheck(pick: Pick, suspension: Suspension): Check {
  const drop = dropBelowPoints(suspension)
  return check({
    kind: stability,
    subject: pick.subject,
    demand: stated('N/m', 0, 'a hang without stiffness is not stable'),
    capacity: suspension.stiffness,
    near: pick.near,
    assumptions: [
      ...(drop === undefined ? [] : [placeText(drop)]),
      ...(suspension.higher === undefined || suspension.higher === 0
        ? []
        : [`Held with the centre of gravity ${suspension.higher.toFixed(2)} m higher as well, at the top of its box.`]),
      ...slackText(suspension),
    ],
    found: (suspension.stiffness.value ?? 1) > 0 ? [] : [notHeld(suspension)],
  })
}

const TURNED_OVER = stated(
  'rad',
  Math.PI / 6,
  'common practice, no source: a piece that comes to rest 30° off has left the legs that were to hold it',
)

/** It comes to rest near its attitude at every corner: with its centre of gravity beyond its points it rolls over onto fewer legs. */
function cornerCheck(pick: Pick, { worstTilt }: Suspension): Check {
  return check({
    kind: stability,
    subject: pick.subject,
    of: 'corners',
    title: `${stability.title}: wherever the centre of gravity lies in its box`,
    demand: worstTilt,
    capacity: TURNED_OVER,
    near: pick.near,
    found: [
      'somewhere in its box the centre of gravity lies beyond what holds the piece, which turns over onto fewer legs: points farther apart, or know the centre of gravity better',
    ],
  })
}

const notHeld = (suspension: Suspension): string =>
  `the pose that is meant is not held: the piece would turn over${spareText(suspension)}; longer legs, higher points, or points farther apart hold it`

function placeText(drop: number): string {
  return drop >= 0
    ? `The centre of gravity lies ${drop.toFixed(2)} m below the lowest point the piece hangs by.`
    : `The centre of gravity lies ${(-drop).toFixed(2)} m above the lowest point the piece hangs by: stable by its legs alone, and to be reviewed.`
}

/** How much lower the centre of gravity would have to be; said only of a piece that is not held. */
function spareText({ load, ends }: Suspension): string {
  if (load === undefined || ends !== undefined) return ''
  const spare = heightToSpare(load)
  if (Math.abs(spare) >= 8) return ''
  return spare >= 0 ? `; it may lie ${spare.toFixed(2)} m higher` : `; it lies ${(-spare).toFixed(2)} m too high`
}

/** Below this share of the mean pull a leg is nearly slack. Common practice, no source. */
const NEARLY_SLACK = 0.05

function slackText({ legs }: Suspension): string[] {
  const pulls = legs.filter(({ leg }) => !leg.above).map(({ leg, tension }) => ({ id: leg.id, pull: tension.value }))
  if (pulls.length === 0 || pulls.some(({ pull }) => pull === undefined)) return []
  const mean = pulls.reduce((sum, { pull }) => sum + (pull as number), 0) / pulls.length
  const slack = pulls.filter(({ pull }) => (pull as number) < NEARLY_SLACK * mean)
  return slack.length === 0
    ? []
    : [`${slack.map(({ id, pull }) => `${id} is ${pull === 0 ? 'slack' : 'nearly slack'}`).join(', ')} by plan.`]
}

function angleChecks(pick: Pick, suspension: Suspension): Check[] {
  return suspension.legs.map(({ leg, worstAngle }, i) =>
    check({
      kind: legAngle,
      subject: pick.subject,
      of: leg.id,
      title: `${legAngle.title}: ${leg.id}`,
      demand: worstAngle,
      capacity: legAngleLimit(pick),
      near: pick.near,
      cautions: RIGGING_CAUTIONS,
      found: tooShort(pick, leg, worstAngle.value, legEnds(i, suspension)),
    }),
  )
}

const STEEPEST = stated(
  'rad',
  Math.PI / 3,
  '60° from the vertical: ASME B30.9, no horizontal angle below 30°; EN 818-4 and EN 13414-1 rate no leg beyond (from memory)',
)

/** The project's angle, and never more than any family of rules rates. */
export const legAngleLimit = ({ settings }: Pick): Answer<'rad'> =>
  leastOf('Largest angle from the vertical', 'rad', [
    { label: 'of the project', answer: knownOr(settings.legAngle, 'rad', '/settings/legAngle') },
    { label: 'of the rules', answer: STEEPEST },
  ])

/** What length would bring a leg that lies too flat within the limit, over the distance of its ends across: a short one is stretched to it. */
function tooShort(
  pick: Pick,
  leg: RigLeg,
  angle: number | undefined,
  ends: readonly [Vec3, Vec3] | undefined,
): string[] {
  const [limit, length] = [legAngleLimit(pick).value, leg.length.value]
  if (limit === undefined || length === undefined || angle === undefined || angle <= limit) return []
  const apart = Math.max(length, ends === undefined ? 0 : Math.hypot(...subtract(ends[1], ends[0])))
  const needed = (apart * Math.sin(angle)) / Math.sin(limit)
  const reaches = apart > REACHES * length ? `, and does not reach over ${apart.toFixed(2)} m` : ''
  return [
    `${leg.id} of ${length.toFixed(2)} m is too short${reaches}: ${needed.toFixed(2)} m over the same distance, or a spreader`,
  ]
}

/** No sling stretches by a twentieth in use. */
const REACHES = 1.05
