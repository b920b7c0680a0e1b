import { type Answer, GRAVITY } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import { type HeaderCase, type HeaderResult, headerOf } from './header.ts'
import { type HookLoad, sharedLoad } from './hook.ts'
import type { TurnStage } from './lift.ts'
import { hookPlaces } from './path.ts'
import type { Hooked, Pick } from './pick.ts'
import type { Tandem } from './tandem.ts'
import { lineLoad } from './turn.formulas.ts'
import type { OpenTurn, Turning } from './turningOf.ts'

/** What of a lift's work the header beams need. */
interface Work {
  load: HookLoad
  tandem: Tandem | undefined
  turning: Turning | OpenTurn | undefined
  turned: readonly TurnStage[]
}

/** Header beams of every tower or gantry that a lift hangs from. */
export function headersOf(pick: Pick, work: Work): { checks: Check[]; headers: readonly HeaderResult[] } {
  const { main, tail } = pick
  const shared = tail !== undefined && tail.systemId === main.systemId
  const places = hookPlaces(pick).map(({ label, at }) => ({ label, x: at[0] }))
  const own = headerOf(pick, main, casesOf(pick, work, shared), places)
  const other = tail === undefined || shared ? undefined : headerOf(pick, tail, tailCases(pick, tail, work), places)
  return {
    checks: [...own.checks, ...(other?.checks ?? [])],
    headers: [own.header, other?.header].flatMap((h) => (h === undefined ? [] : [h])),
  }
}

/** The hook alone, both hooks with the piece at rest, and both at each stage of a turn. */
function casesOf(pick: Pick, { load, tandem, turning, turned }: Work, shared: boolean): HeaderCase[] {
  const { main, tail } = pick
  const alone = (below: Answer<'kg'>): HeaderCase => ({
    label: `${main.hook.name} alone`,
    hooks: [{ hooked: main, below }],
  })
  if (tandem !== undefined && tail !== undefined) {
    const own = below(pick, main, tandem.main.worst)
    if (!shared) return [alone(own)]
    const apart = main.system.bothHooks?.leastDistance.value ?? 0
    return [
      {
        label: 'both hooks, piece at rest',
        hooks: [
          { hooked: main, below: own },
          { hooked: tail, below: below(pick, tail, tandem.tail.worst) },
        ],
        apart,
      },
    ]
  }
  if (turning === undefined || tail === undefined || !shared) return [alone(load.load)]
  return [alone(load.load), ...turnCases(pick, tail, turned)]
}

/** Both hooks at each stage of a turn where both pull. */
function turnCases(pick: Pick, tail: Hooked, turned: readonly TurnStage[]): HeaderCase[] {
  return turned
    .filter(({ held }) => held)
    .map((stage) => ({
      label: `turned ${Math.round((stage.angle * 180) / Math.PI)}°`,
      hooks: [
        { hooked: pick.main, below: below(pick, pick.main, stage.main) },
        { hooked: tail, below: below(pick, tail, stage.tail) },
      ],
      apart: stage.apart,
    }))
}

function tailCases(pick: Pick, tail: Hooked, { tandem, turned }: Work): HeaderCase[] {
  const label = `${tail.hook.name} alone`
  if (tandem !== undefined) return [{ label, hooks: [{ hooked: tail, below: below(pick, tail, tandem.tail.worst) }] }]
  const stages = turned.filter(({ held }) => held)
  return stages.map((stage) => ({ label, hooks: [{ hooked: tail, below: below(pick, tail, stage.tail) }] }))
}

/** Load below a hook from the pull of its line, with its own rigging. */
const below = (pick: Pick, hooked: Hooked, pull: Answer<'N'>): Answer<'kg'> =>
  sharedLoad(pick, hooked, { label: 'share of the piece', answer: lineLoad.show({ T: pull, g: GRAVITY }) }).load
