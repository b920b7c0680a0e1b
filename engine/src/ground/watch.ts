import type { Model, Utility } from '../model/index.ts'
import { type Answer, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { SOIL } from './caution.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'

/** Neighbours and runways by their last reading: what nobody has read is open. Practice 48, 69. */
export function watchChecks({ project, near }: Model): Check[] {
  const neighbours = Object.entries(project.utilities).flatMap(([id, u]) => [
    ...neighbourCheck(project.ground, id, u, 'settlement', near),
    ...neighbourCheck(project.ground, id, u, 'slope', near),
  ])
  return [...neighbours, ...levelChecks(project, near)]
}

/** Runways as surveyed, and cranes on their feet: what carries a lift and says nothing of its level is open. */
function levelChecks({ systems, lifts, ground }: Model['project'], near: number): Check[] {
  const lifting = new Set(Object.values(lifts).flatMap(({ system, tail }) => [system, tail?.system ?? system]))
  return Object.entries(systems).flatMap(([id, { name, kind, level }]) => {
    if (level === undefined && (!lifting.has(id) || kind === 'hoist')) return []
    const pointer = pointerOf('systems', id, 'level')
    const isCrane = kind === 'crawler crane' || kind === 'mobile crane'
    return [
      check({
        kind: kinds.runwayLevel,
        subject: { pointer, id, name },
        ...(isCrane ? { title: 'Crane level on its feet, as read' } : {}),
        demand: knownOr(level?.reading, 'm', `${pointer}/reading`),
        capacity: knownOr(level?.limit, 'm', `${pointer}/limit`),
        near,
        assumptions: [
          level?.on === undefined ? 'The survey has no date.' : `Surveyed on ${level.on}.`,
          restingOn(ground, 'G6'),
        ],
        cautions: [
          SOIL,
          isCrane
            ? 'A load at the head of a boom moves out with the slope of its feet: the level is read again before each lift.'
            : 'The runway is surveyed again after each heavy lift and before the next.',
        ],
      }),
    ]
  })
}

/** Below alert passes; above it the check fails, and names the response agreed. */
function neighbourCheck(
  ground: Model['project']['ground'],
  id: string,
  u: Utility,
  what: 'settlement' | 'slope',
  near: number,
): Check[] {
  const levels = u[what]
  if (levels === undefined) return []
  const pointer = pointerOf('utilities', id, what)
  const { alert, action, alarm } = levels
  const unit = what === 'settlement' ? 'm' : '1'
  const reading = knownOr<'m' | '1'>(levels.reading, unit, `${pointer}/reading`)
  return [
    check<'m' | '1'>({
      kind: kinds.neighbour,
      subject: { pointer, id, name: u.what },
      of: what,
      title: `${kinds.neighbour.title}: ${what} of ${u.what}`,
      demand: reading,
      capacity: alert as Answer<'m' | '1'>,
      near,
      found: [passed(reading.value, action.value, alarm.value), `Response: ${levels.response ?? 'none is recorded'}`],
      assumptions: [
        levels.on === undefined ? 'The reading has no date.' : `Read on ${levels.on}.`,
        restingOn(ground, 'G9'),
      ],
      cautions: [SOIL, 'Above the alarm level work stops until the ground engineer releases it.'],
    }),
  ]
}

function passed(reading = 0, action = 0, alarm = 0): string {
  if (reading > alarm) return 'above the alarm level'
  return reading > action ? 'above the action level' : 'above the alert level'
}
