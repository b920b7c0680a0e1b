import type { SheetCheck } from './sheetChecks.ts'
import type { SheetSubject } from './subject.ts'

/** Which check each figure is judged by, as it is printed beside it: `[7]` is the seventh of the list; empty where none is. */
export interface CheckRefs {
  hook: string
  reading: string
  tilt: string
  height: string
  wind: string
  clearance: string
  /** Day of the lift: shift, shelter, what holds it when something fails. */
  shift: string
  shelter: string
  holds: string
  /** Shares of a turn. */
  main: string
  tail: string
  works: string
  legs: Readonly<Record<string, string>>
  tailLegs: Readonly<Record<string, string>>
}

export function checkRefs({ id, outcome, main, tail }: SheetSubject, checks: readonly SheetCheck[]): CheckRefs {
  const refOf = (kind: string, ending = ''): string => {
    const found = checks.find((c) => c.id.startsWith(`${kind}/${id}`) && c.id.endsWith(ending))
    return found === undefined ? '' : `[${found.number}]`
  }
  const onHook = (kind: string, hook: string | undefined, ending = ''): string =>
    hook === undefined ? '' : refOf(kind, `/${hook}${ending}`)
  return {
    hook: onHook('lift.hook.use', main.hookId),
    reading: onHook('lift.hook.break-out', main.hookId),
    tilt: refOf('lift.hang.tilt'),
    height: refOf('lift.height.hook'),
    wind: refOf('lift.wind.allowable'),
    clearance: refOf('lift.path.clearance', outcome.clearance === undefined ? '' : `/${outcome.clearance.to}`),
    shift: refOf('lift.time.fits', '/shift'),
    shelter: refOf('lift.time.shelter'),
    holds: refOf('lift.failure.holds'),
    main: onHook('lift.turn.worst-share', main.hookId),
    tail: onHook('lift.turn.worst-share', tail?.hookId),
    works: refOf('lift.works.ready'),
    legs: Object.fromEntries(
      outcome.legs.map((leg) => [leg.id, onHook('lift.leg.tension', main.hookId, `/${leg.id}`)]),
    ),
    tailLegs: Object.fromEntries(
      outcome.tailLegs.map((leg) => [leg.id, onHook('lift.leg.tension', tail?.hookId, `/${leg.id}`)]),
    ),
  }
}

/** A figure with the check that judges it. */
export const withRef = (words: string, ref: string): string => (ref === '' ? words : `${words} ${ref}`)
