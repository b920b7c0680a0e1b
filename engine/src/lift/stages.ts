import type { Vec3 } from '../numeric/vector.ts'
import { type Answer, given, knownOr, stated, sumOf, type Term } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { hoistTime, luffTime, slewTime, travelTime, turnTime } from './duration.formulas.ts'
import type { Hull } from './hull.ts'
import { isTravelled, isTurned, type Motion, motionsOf, type StageName } from './motions.ts'
import type { Pick } from './pick.ts'
import { isCrane, slewingCentre, standingAt, standingOf } from './swept.ts'

/** One stage of a lift on its way, with what each part of it takes. Times count from the load being taken. */
export interface LiftStage {
  name: StageName
  /** Hook over the centre of gravity, site frame, m; undefined where the place is not known. */
  from: Vec3 | undefined
  to: Vec3 | undefined
  start: Answer<'s'>
  end: Answer<'s'>
  time: Answer<'s'>
  /** Hoist, travel, slew, turn: one after the other. */
  parts: readonly Term<'s'>[]
  /** The same stage the other way, to where it began. */
  back: Answer<'s'>
}

/** A stage with the movement that it carries out. */
export interface TimedMotion extends LiftStage {
  motion: Motion
}

/**
 * The way of a lift in time: each movement at the speeds of its machine, hoisting, travelling, slewing, luffing and turning one
 * after the other (one movement at a time, common practice). A speed that is not stated leaves its stage open, and all after it.
 */
export function stagesOf(pick: Pick, hull: Hull | undefined): TimedMotion[] {
  const stages: TimedMotion[] = []
  for (const [i, motion] of motionsOf(pick, hull).entries()) {
    const start = stages.at(-1)?.end ?? stated('s', 0, 'the load is taken')
    const parts = partsOf(pick, motion, 1)
    const time = sumOf(`Time of stage ${i + 1}, ${motion.name}`, 's', parts)
    stages.push({
      name: motion.name,
      from: motion.from,
      to: motion.to,
      start,
      end: sumOf(`End of stage ${i + 1}, ${motion.name}`, 's', [
        { label: 'before it', answer: start },
        { label: motion.name, answer: time },
      ]),
      time,
      parts,
      back: sumOf(`Back over stage ${i + 1}, ${motion.name}`, 's', partsOf(pick, motion, -1)),
      motion,
    })
  }
  return stages
}

/** Times of a movement, forward or back: what its machine does. */
function partsOf(pick: Pick, motion: Motion, sense: 1 | -1): Term<'s'>[] {
  return [...hoisted(pick, motion, sense), ...movedInPlan(pick, motion), ...turned(pick, motion)]
}

function hoisted({ main: { hook, hookAt } }: Pick, { rise }: Motion, sense: 1 | -1): Term<'s'>[] {
  if (rise.value === 0) return []
  const up = (rise.value ?? 0) * sense > 0
  const v = up ? hook.speed : (hook.lowering ?? hook.speed)
  const h: Answer<'m'> =
    rise.value === undefined ? rise : stated('m', Math.abs(rise.value), up ? 'height hoisted' : 'height lowered')
  return [
    {
      label: up ? 'hoist' : 'lower',
      answer: hoistTime.show({ h, v: knownOr(v, 'm/s', `${hookAt}/speed`) }),
    },
  ]
}

function movedInPlan(pick: Pick, { name, from, to }: Motion): Term<'s'>[] {
  if (from === undefined || to === undefined)
    return name === 'travel' ? [{ label: 'travel', answer: given('s', pick.bayAt, undefined) }] : []
  if (!isTravelled(Math.hypot(to[0] - from[0], to[1] - from[1]))) return []
  return isCrane(pick.main.system) ? slewed(pick, from, to) : travelled(pick, from, to)
}

/** Along the runway, and across it with the hook. */
function travelled({ main: { system, systemAt, hook, hookAt } }: Pick, from: Vec3, to: Vec3): Term<'s'>[] {
  const [across, along] = [Math.abs(to[0] - from[0]), Math.abs(to[1] - from[1])]
  const time = (label: string, s: number, v: Answer<'m/s'>): Term<'s'>[] =>
    isTravelled(s) ? [{ label, answer: travelTime.show({ s: stated('m', s, `distance ${label}`), v }) }] : []
  return [
    ...time('along', along, knownOr(system.travelSpeed, 'm/s', `${systemAt}/travelSpeed`)),
    ...time('across', across, knownOr(hook.traverse, 'm/s', `${hookAt}/traverse`)),
  ]
}

/** About the slewing centre, and in or out. */
function slewed(pick: Pick, from: Vec3, to: Vec3): Term<'s'>[] {
  const { system, systemAt } = pick.main
  const centre = slewingCentre(pick)
  if (centre === undefined) {
    const unknown = given('rad', standingAt(pick, pick.main), undefined)
    const w = knownOr(system.slewSpeed, 'rad/s', `${systemAt}/slewSpeed`)
    return [{ label: 'slew', answer: slewTime.show({ a: unknown, w }) }]
  }
  const [x, y] = centre
  const [a, b] = [from, to].map((p) => ({ at: Math.atan2(p[1] - y, p[0] - x), r: Math.hypot(p[0] - x, p[1] - y) })) as [
    { at: number; r: number },
    { at: number; r: number },
  ]
  const slew = Math.abs(shorterWay(b.at - a.at))
  const luff = Math.abs(b.r - a.r)
  const about = pointerOf('standings', standingOf(pick, system) as number)
  return [
    {
      label: 'slew',
      answer: slewTime.show({
        a: stated('rad', slew, `in plan about ${systemAt}${about}`),
        w: knownOr(system.slewSpeed, 'rad/s', `${systemAt}/slewSpeed`),
      }),
    },
    ...(isTravelled(luff)
      ? [
          {
            label: 'luff',
            answer: luffTime.show({
              r: stated('m', luff, `in plan about ${systemAt}${about}`),
              v: knownOr(system.luffSpeed, 'm/s', `${systemAt}/luffSpeed`),
            }),
          },
        ]
      : []),
  ]
}

const shorterWay = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI))

function turned({ lift, at }: Pick, motion: Motion): Term<'s'>[] {
  if (!isTurned(motion.turned)) return []
  return [
    {
      label: 'turn',
      answer: turnTime.show({
        a: stated(
          'rad',
          motion.turned,
          motion.tilts ? 'from the start to the end of the turn' : 'about the hoist line',
        ),
        w: knownOr(lift.turn?.speed, 'rad/s', `${at}/turn/speed`),
      }),
    },
  ]
}
