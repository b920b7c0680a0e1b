import { type Derivation, instantOf, type Stages, tryChange } from '@shieldwright/engine'
import type { Activity, PlanProposal, ProgrammeResult, Scheduled } from '@shieldwright/engine/programme/index.ts'
import { countVerdicts } from '@shieldwright/engine/working/check.ts'
import { showQuantity, type UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { Command } from 'commander'
import { startJob } from '../../jobs/job.ts'
import type { Answer, Common } from '../answer.ts'
import { checkJson, checksTable, countsText, reasonsText } from '../checkView.ts'
import { onDerivation, projectCommand, wholeNumber } from '../command.ts'
import { watched } from '../progress.ts'
import { table } from '../table.ts'
import { seedOption } from './risk.ts'

interface Options extends Common {
  effort?: number
  seed: number
}

/** `programme FILE`: activities, dates, float, the plan's finish and what no plan can beat. */
export const programmeCommand = (): Command =>
  projectCommand('programme', 'activities, dates, float and the date of restart')
    .option('--effort <n>', 'look for an earlier plan, through so many schedules', wholeNumber(1, 10_000_000, 2000))
    .option('--seed <n>', 'the same seed and effort give the same plan', seedOption, 1)
    .action(onDerivation(plannedAnswer))

async function plannedAnswer(derivation: Derivation, stages: Stages, options: Options): Promise<Answer> {
  const { effort, seed } = options
  if (effort === undefined) return programmeAnswer(stages, options)
  const outcome = await watched('plan', (progress) =>
    startJob<'plan'>(derivation, { kind: 'plan', effort, seed }, progress),
  )
  if (!('result' in outcome)) return outcome
  const proposal = outcome.result
  const changed = tryChange(derivation, proposal.patch).derivation?.derived.stages ?? stages
  return programmeAnswer(changed, options, proposal)
}

function programmeAnswer(
  { programme }: Pick<Stages, 'programme'>,
  { units = 'SI' }: Common,
  proposal?: PlanProposal,
): Answer {
  const counts = countVerdicts(programme.checks)
  return {
    json: {
      ...planJson(programme),
      ...proposalJson(programme, proposal),
      checks: programme.checks.map((c) => checkJson(c, units)),
    },
    text: () =>
      `${planText(programme, units)}${searchText(programme, proposal)}\n${checksTable(programme.checks, units)}\n${reasonsText(programme.checks)}\n${countsText(counts)}`,
    counts,
  }
}

/** What the search says of its plan, and the patch that adopts it. */
function proposalJson({ origin, proven }: ProgrammeResult, proposal: PlanProposal | undefined) {
  if (proposal === undefined) return {}
  const { before, bound, reason, schedules, conflicts, ended, seed, ways, patch } = proposal
  const dates = { before: instantOf(origin, before), bound: instantOf(origin, bound) }
  const searched = { ...dates, reason, schedules, conflicts, ended, seed, ways, patch }
  return { proven: proven || proposal.proven, search: searched }
}

/** What a search came to: how much work, what is ruled out, and why. */
function searchText({ origin }: ProgrammeResult, proposal: PlanProposal | undefined): string {
  if (proposal === undefined) return ''
  const { bound, reason, schedules, conflicts, ended, proven, ways } = proposal
  const before = (instantOf(origin, bound) ?? 'open').slice(0, 10)
  const ruledOut = proven ? 'no plan restarts earlier' : `no plan restarts before ${before}`
  const inWays = ways.map(
    ({ activity, way, gain }) => `  ${activity} in the way ${way}: ${(gain / 86_400).toFixed(1)} d sooner\n`,
  )
  return `search: ${schedules} schedules, ${conflicts} conflicts learnt from, ${ended}; ${ruledOut}: ${reason}\n${inWays.join('')}`
}

/** Dates as ISO 8601; floats and work in seconds. */
export function planJson({
  activities,
  plan,
  restart,
  restartUnlimited,
  bound,
  proven,
  origin,
  basis,
  nearCritical = [],
  held = {},
}: ProgrammeResult) {
  const instant = (seconds: number | undefined) => (seconds === undefined ? null : instantOf(origin, seconds))
  return {
    activities: Object.values(activities).map((a) => activityJson(a, plan[a.id], instant, held[a.id])),
    finish: instant(restart),
    finishUnlimited: instant(restartUnlimited),
    bound: instant(bound?.value),
    boundReason: bound?.reason ?? null,
    boundEvidence: bound?.evidence ?? null,
    proven,
    basis: basis ?? null,
    nearCritical,
  }
}

function activityJson(
  a: Activity,
  dates: Scheduled | undefined,
  instant: (s: number | undefined) => string | null,
  held: readonly string[] | undefined,
) {
  return {
    id: a.id,
    name: a.name,
    kind: a.kind,
    phase: a.phase,
    start: instant(dates?.start),
    finish: instant(dates?.finish),
    earlyStart: instant(dates?.earlyStart),
    earlyFinish: instant(dates?.earlyFinish),
    totalFloat: dates?.totalFloat,
    planFloat: dates?.planFloat,
    critical: dates?.critical,
    planCritical: dates?.planCritical,
    waitsFor: dates?.waitsFor,
    work: a.work,
    resources: a.needs,
    predecessors: a.after,
    from: a.from,
    lift: a.lift,
    holdPoint: a.holdPoint,
    heldBy: held,
  }
}

function planText(programme: ProgrammeResult, units: UnitSystem): string {
  const { activities, plan, origin } = programme
  const day = (seconds: number | undefined) =>
    seconds === undefined ? 'open' : (instantOf(origin, seconds) ?? 'open').slice(0, 10)
  const columns = [
    { title: 'activity' },
    { title: 'name' },
    { title: 'start' },
    { title: 'finish' },
    { title: 'float', align: 'decimal' },
    { title: 'critical' },
    { title: 'resources' },
  ] as const
  const rows = Object.values(activities)
    .map((a) => ({ a, dates: plan[a.id] }))
    .sort((x, y) => (x.dates?.start ?? 0) - (y.dates?.start ?? 0))
    .map(({ a, dates }) => [
      a.id,
      a.name,
      day(dates?.start),
      day(dates?.finish),
      showQuantity(dates?.totalFloat, 's', units),
      dates?.critical ? 'critical' : '',
      Object.entries(a.needs)
        .map(([resource, n]) => `${n} ${resource}`)
        .join(', '),
    ])
  const { restart, bound, proven, basis = 'open' } = programme
  const low = bound === undefined ? '' : `, no plan before ${day(bound.value)} (${bound.reason})`
  return `${table(columns, rows)}\nrestart ${day(restart)} by the ${basis}${proven ? ', proven best' : low}\n`
}
