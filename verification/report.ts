import type { Comparison, Outcome } from './types.ts'
import { shownValue } from './value.ts'
import type { Counts, Verification } from './verify.ts'

/** The verification report: every case with its source, what was expected, what came, and the verdict. */
export function reportText(result: Verification): string {
  const failed = result.cases.filter((c) => c.verdict === 'fail')
  return [
    ...result.cases.map(caseText),
    countsText('By stage', result.byStage),
    countsText('By basis', result.byBasis),
    failed.length === 0 ? '' : `Failed:\n${failed.map((c) => `  ${c.id}`).join('\n')}\n`,
    `${result.passed} passed, ${result.failed} failed\n`,
  ]
    .filter((part) => part !== '')
    .join('\n')
}

function caseText(one: Outcome): string {
  return [
    `${one.verdict.toUpperCase()}  ${one.id}${one.title === undefined ? '' : `: ${one.title}`}`,
    `      source    ${one.source} (${one.basis})`,
    ...(one.function === '' ? [] : [`      by        ${one.function}(${inputsText(one.inputs)})`]),
    ...one.comparisons.map(comparisonText),
    ...(one.reason === undefined ? [] : [`      reason    ${one.reason}`]),
    ...(one.note === undefined ? [] : [`      note      ${one.note}`]),
    '',
  ].join('\n')
}

const LONGEST_INPUTS = 160

function inputsText(inputs: Readonly<Record<string, unknown>>): string {
  const text = Object.entries(inputs)
    .map(([name, value]) => `${name} = ${shownValue(value)}`)
    .join(', ')
  return text.length > LONGEST_INPUTS ? `${text.slice(0, LONGEST_INPUTS)}…` : text
}

function comparisonText({ name, expected, got, difference, share, within, holds }: Comparison): string {
  const percent = share === undefined ? '' : ` (${(100 * share).toPrecision(2)} %)`
  const by = difference === undefined ? '' : `, difference ${difference}${percent}, allowed ${within}`
  return `      ${holds ? 'agrees' : 'DIFFERS'}${holds ? '    ' : '   '}${name}: expected ${expected}, got ${got}${by}`
}

function countsText(title: string, counts: Readonly<Record<string, Counts>>): string {
  const width = Math.max(0, ...Object.keys(counts).map((name) => name.length))
  const rows = Object.entries(counts).map(
    ([name, { passed, failed }]) => `  ${name.padEnd(width)}  ${passed} passed, ${failed} failed`,
  )
  return [title, ...rows, ''].join('\n')
}
