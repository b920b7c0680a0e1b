import { showNumber } from '@shieldwright/engine/working/quantity.ts'
import { comingUp } from '../first/upcoming.ts'
import { dateText, hoursText } from '../parts/figures.ts'
import { checksOf, counted, type Facts, toCome } from './facts.ts'

const DAY = 86_400
const NOT_RUN = 'The runs, once made, say'

export function restart({ summary, risk }: Facts): string {
  if (summary.restart === undefined) return 'No restart is planned yet.'
  const slip = summary.progress?.slip
  const against = slip?.seconds === undefined ? '' : `; ${showNumber(slip.seconds / DAY, 0)} d on the baseline`
  const plan = `plan ${dateText(summary.restart)}${against}`
  return risk === undefined
    ? `${plan}; ${NOT_RUN.toLowerCase()} how sure it is.`
    : `P50 ${dateText(risk.p50)}, P80 ${dateText(risk.p80)}; ${plan}.`
}

export function whenAndCost(facts: Facts): string {
  const { risk, summary } = facts
  const fails = summary.checks.filter((c) => c.verdict === 'fail').length
  const cost =
    risk === undefined
      ? ''
      : ` Cost up to it ${showNumber(Math.round(risk.cost.p50 / 1000) * 1000, 0)} (P50), ${showNumber(Math.round(risk.cost.p80 / 1000) * 1000, 0)} (P80).`
  return `${restart(facts)}${cost} ${fails} of ${summary.checks.length} checks fail today.`
}

export function drives({ risk, summary }: Facts): string {
  if (risk !== undefined)
    return `${risk.drivers
      .slice(0, 3)
      .map((d) => `${d.name} (${d.share.toFixed(2)} of the spread)`)
      .join('; ')}.`
  const chain = toCome(summary).filter((a) => a.drives)
  return `In the plan: ${chain
    .slice(0, 4)
    .map((a) => a.name)
    .join(' → ')}${chain.length > 4 ? ` and ${chain.length - 4} more` : ''}. ${NOT_RUN} what spreads it.`
}

export function buys({ measures }: Facts): string {
  const best = measures?.kept?.measures.filter((m) => m.savedP80 > 0)
  if (best === undefined) return `${NOT_RUN} it of each measure by itself.`
  return best.length === 0
    ? 'No measure of the project saves a day.'
    : `${best
        .slice(0, 3)
        .map((m) => `${m.name}: ${showNumber(m.savedP80, 1)} d at P80 for ${showNumber(m.price, 0)}`)
        .join('; ')}.`
}

interface Scenarios {
  scenarios?: Readonly<Record<string, { name?: string }>>
}

export function secondShift({ document, measures }: Facts): string {
  const named = Object.values((document as Scenarios).scenarios ?? {}).flatMap((s) => s.name ?? [])
  const option = measures?.kept?.measures.find((m) => m.kind === 'option')
  if (option !== undefined)
    return `${option.name}: ${showNumber(option.savedP80, 1)} d at P80 for ${showNumber(option.price, 0)}.`
  return named.length === 0 ? `${NOT_RUN} it of each option.` : `Side by side: ${named.join('; ')}.`
}

export function waits({ summary, document }: Facts): string {
  const { soon, later } = comingUp(summary, document)
  const first = (soon.length > 0 ? soon : later).slice(0, 3)
  if (first.length === 0) return 'Nothing waits for a signature, a permit or a delivery.'
  return `${first.map((c) => `${dateText(c.at)} ${c.what} (${c.asks})`).join('; ')}.`
}

export function decisions(facts: Facts): string {
  const owners = facts.summary.activities.filter(
    (a) => a.holdPoint?.includes('owner') && a.finish >= (facts.summary.today ?? 0),
  )
  if (owners.length === 0) return waits(facts)
  return `${owners
    .slice(0, 3)
    .map((a) => `${dateText(a.finish)} ${a.name}`)
    .join('; ')}.`
}

export function paths({ summary }: Facts): string {
  const driving = summary.activities.filter((a) => a.drives).length
  const near = (summary.nearPaths ?? []).filter((p) => p.float <= 10 * DAY)
  const least = near[0]
  return `${counted(driving, 'activity', 'activities')} drive the restart; ${near.length === 0 ? 'no other path comes within ten days' : `${counted(near.length, 'path')} within ten days, the nearest ${hoursText(least?.float)} away`}.`
}

export function queues({ summary }: Facts): string {
  const waiting = new Map<string, number>()
  for (const a of summary.activities) {
    const resource = a.waitsFor?.resource
    if (resource !== undefined) waiting.set(resource, (waiting.get(resource) ?? 0) + 1)
  }
  const most = [...waiting].sort((a, b) => b[1] - a[1]).slice(0, 3)
  return most.length === 0
    ? 'Nothing waits for a crew or for plant.'
    : `${most.map(([id, n]) => `${id}: ${counted(n, 'activity', 'activities')} wait`).join('; ')}.`
}

export function late({ summary }: Facts): string {
  const checks = checksOf(summary, 'programme.delivery.in-time')
  const short = checks.filter((c) => c.verdict !== 'pass')
  if (checks.length === 0) return 'No delivery is in the programme.'
  if (short.length === 0) return `All ${checks.length} come in time at 80 %.`
  const { demand = 0, capacity = 0, subjectName } = short[0] as (typeof short)[number]
  const days = (capacity - demand) / DAY
  return `${subjectName}: ${days < 0 ? `${showNumber(-days, 0)} d too late at 80 %` : `${showNumber(days, 0)} d to spare`}. A date typed here says what it moves.`
}

export function proven({ summary }: Facts): string {
  if (summary.restart === undefined) return 'There is no plan yet.'
  if (summary.proven) return `Proved: ${summary.bound?.reason ?? 'nothing restarts earlier'}.`
  if (summary.bound === undefined) return 'No bound is known yet.'
  const gap = (summary.restart - summary.bound.at) / (1000 * DAY)
  return `Within ${showNumber(gap, 1)} d of what no plan can beat: ${summary.bound.reason}.`
}

export function today({ summary }: Facts): string {
  const [now, coming] = [
    (summary.progress?.ahead ?? []).filter((a) => a.today),
    toCome(summary).find((a) => a.start > (summary.today ?? 0)),
  ]
  const said =
    now.length === 0
      ? 'Nothing goes on'
      : now
          .slice(0, 3)
          .map((a) => a.name)
          .join('; ')
  return `${said}${now.length > 3 ? ` and ${now.length - 3} more` : ''}${coming === undefined ? '' : `; first to come ${coming.name}, ${dateText(coming.start)}`}.`
}
