import { checksOf, counted, type Facts, text } from './facts.ts'

export function order({ summary }: Facts): string {
  const bad = summary.steps.filter((s) => s.failures.length > 0).length
  const steps = counted(summary.steps.length, 'step')
  return `The adopted order has ${steps}, ${bad === 0 ? 'all of them free' : `${bad} of them blocked`}; the search here says whether a shorter one exists, and proves it.`
}

export function blocks({ summary }: Facts): string {
  const stuck = summary.steps.find((s) => s.failures.length > 0)
  if (stuck !== undefined) return `${stuck.name}: ${stuck.failures[0]}`
  return 'Nothing blocks a piece in the adopted order; the picture shows for each what has to go before it.'
}

export function services({ summary }: Facts): string {
  const cut = summary.steps.reduce((sum, s) => sum + s.services, 0)
  const isolations = checksOf(summary, 'strip.isolation.discharged')
  const open = isolations.filter((c) => c.verdict !== 'pass').length
  return `${counted(cut, 'service')} cut over ${counted(summary.steps.length, 'step')}; ${open === 0 ? 'every isolation is proved dead' : `${open} of ${counted(isolations.length, 'isolation')} not yet proved dead: ${isolations.find((c) => c.verdict !== 'pass')?.subjectName} first`}.`
}

export function firstServices({ summary }: Facts): string {
  const first = summary.steps.find((s) => s.services > 0)
  return first === undefined
    ? 'No service is cut.'
    : `${first.step}, ${first.name}: ${counted(first.services, 'service')}; opened, the step lists them with their tags.`
}

interface Changes {
  changes?: Readonly<Record<string, { state?: string }>>
}

export function added({ summary, document, system }: Facts): string {
  const all = Object.values((document as Changes).changes ?? {})
  const more = summary.pieces.filter(
    (p) => p.found !== undefined && p.returned !== undefined && p.returned - p.found > 0.5,
  )
  const most = more.reduce(
    (a, b) => ((b.returned ?? 0) - (b.found ?? 0) > (a.returned ?? 0) - (a.found ?? 0) ? b : a),
    more[0] as (typeof more)[number],
  )
  if (most === undefined) return `${counted(all.length, 'change')}; no piece goes back heavier.`
  return `${counted(all.length, 'change')}; ${counted(more.length, 'piece')} ${more.length === 1 ? 'goes' : 'go'} back heavier, ${most.name} most: by ${text((most.returned ?? 0) - (most.found ?? 0), 'kg', system)}.`
}

export function closes({ summary }: Facts): string {
  const faces = checksOf(summary, 'strip.joint.faces')
  const [open, fail] = (['open', 'fail'] as const).map((v) => faces.filter((c) => c.verdict === v).length)
  if (faces.length === 0) return 'No joint asks for a survey of its faces.'
  return `Of ${counted(faces.length, 'condition')} on flatness and gap ${fail} fail and ${open} wait for the survey.`
}
