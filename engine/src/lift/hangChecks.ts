import { knownOr, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { RIGGING_CAUTIONS } from './caution.ts'
import { legAngle, stability, tilt } from './kinds.ts'
import type { Pick } from './pick.ts'
import { dropBelowPoints, type Suspension } from './suspension.ts'

/** Tilt, stability and the angles of the legs. A piece that is turned is not meant to hang level: its turn is checked. */
export function hangChecks(pick: Pick, suspension: Suspension): Check[] {
  const tilts = pick.lift.kind === 'turn' ? [] : [tiltCheck(pick, suspension)]
  return [...tilts, stabilityCheck(pick, suspension), ...angleChecks(pick, suspension)]
}

function tiltCheck(pick: Pick, { tilt: planned, worstTilt, links }: Suspension): Check {
  return check({
    kind: tilt,
    subject: pick.subject,
    demand: planned,
    capacity: knownOr(pick.settings.tilt, 'rad', '/settings/tilt'),
    near: pick.near,
    assumptions: [
      'From the attitude in which it is taken up, by the planned centre of gravity and lengths; a trial lift shows the rest.',
      ...(worstTilt.value === undefined ? [] : [`Worst corner of the tolerances: ${degrees(worstTilt.value)}.`]),
      ...links.map(
        (l) => `${l.item} on ${l.leg} set to ${lengthText(l.setting.value)} of ${lengthText(l.stroke.value)}.`,
      ),
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
    assumptions:
      drop === undefined
        ? []
        : drop >= 0
          ? [`The centre of gravity lies ${drop.toFixed(2)} m below the lowest point the piece hangs by.`]
          : [
              `The centre of gravity lies ${(-drop).toFixed(2)} m above the lowest point the piece hangs by: stable by its legs, and to be reviewed.`,
            ],
    found: ['the pose that is meant is not held: the piece would turn over'],
  })
}

function angleChecks(pick: Pick, { legs }: Suspension): Check[] {
  return legs.map(({ leg, worstAngle }) =>
    check({
      kind: legAngle,
      subject: pick.subject,
      of: leg.id,
      title: `${legAngle.title}: ${leg.id}`,
      demand: worstAngle,
      capacity: knownOr(pick.settings.legAngle, 'rad', '/settings/legAngle'),
      near: pick.near,
      cautions: RIGGING_CAUTIONS,
    }),
  )
}
