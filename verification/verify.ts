import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { problemText } from '../engine/src/working/problem.ts'
import { functions } from './functions/index.ts'
import { readCases } from './read.ts'
import { reportText } from './report.ts'
import { runCase } from './run.ts'
import type { Case, Outcome, VerifiedFunction } from './types.ts'

export interface Counts {
  passed: number
  failed: number
}

/** What came of every case, with counts. */
export interface Verification extends Counts {
  byStage: Readonly<Record<string, Counts>>
  byBasis: Readonly<Record<string, Counts>>
  cases: readonly Outcome[]
}

/** A case file: its name and its text. */
export interface CaseFile {
  name: string
  text: string
}

const casesFolder = fileURLToPath(new URL('./cases', import.meta.url))

/** Every case file of the project, by name. */
export function caseFiles(folder: string = casesFolder): CaseFile[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.yaml'))
    .sort()
    .map((name) => ({ name, text: readFileSync(join(folder, name), 'utf8') }))
}

/** Runs the cases of these files. What cannot be read counts as failed. */
export function verification(
  files: readonly CaseFile[],
  known: ReadonlyMap<string, VerifiedFunction> = functions,
): Verification {
  const cases = files.flatMap((file) => outcomesOf(file, known))
  return {
    ...countsOf(cases),
    byStage: countsBy(cases, (c) => c.stage),
    byBasis: countsBy(cases, (c) => c.basis),
    cases,
  }
}

function outcomesOf(
  { name, text }: CaseFile,
  known: ReadonlyMap<string, VerifiedFunction>,
  wanted: (one: Case) => boolean = () => true,
): Outcome[] {
  const file = basename(name, '.yaml')
  const stage = file.split('-', 1)[0] as string
  const { cases, problems } = readCases(text)
  const run = cases
    .filter(wanted)
    .map((one) => runCase(one, stage, known))
    .map((o) => ({ ...o, id: `${file}/${o.id}` }))
  return [...run, ...problems.map((p) => unread(`${file}${p.pointer}`, stage, problemText(p)))]
}

/** Names of formulas and functions that cases of one stage call, with how many do. */
export function functionsOf(files: readonly CaseFile[], stage: string): { function: string; cases: number }[] {
  const counts = new Map<string, number>()
  for (const { name, text } of files)
    if (name.startsWith(`${stage}-`))
      for (const one of readCases(text).cases) counts.set(one.function, (counts.get(one.function) ?? 0) + 1)
  return [...counts].map(([name, cases]) => ({ function: name, cases }))
}

/** What comes of every case that calls this formula or function, run now. */
export function casesOf(files: readonly CaseFile[], name: string): Outcome[] {
  const naming = files.filter(({ text }) => text.includes(name))
  return naming.flatMap((file) => outcomesOf(file, functions, (one) => one.function === name))
}

const unread = (id: string, stage: string, reason: string): Outcome => ({
  id,
  stage,
  source: 'not read',
  basis: 'unknown',
  function: '',
  inputs: {},
  expected: {},
  got: {},
  comparisons: [],
  verdict: 'fail',
  reason,
})

const countsOf = (cases: readonly Outcome[]): Counts => {
  const passed = cases.filter((c) => c.verdict === 'pass').length
  return { passed, failed: cases.length - passed }
}

function countsBy(cases: readonly Outcome[], of: (one: Outcome) => string): Record<string, Counts> {
  const names = [...new Set(cases.map(of))]
  return Object.fromEntries(names.map((name) => [name, countsOf(cases.filter((one) => of(one) === name))]))
}

/** The command behind `npm run verify`: words are beginnings of file names; `--json`; `--report PATH` writes counts. */
function main(words: readonly string[]): void {
  const reportAt = words.indexOf('--report')
  const report = reportAt < 0 ? undefined : words[reportAt + 1]
  const wanted = words.filter((word, i) => !word.startsWith('--') && (reportAt < 0 || i !== reportAt + 1))
  const files = caseFiles().filter(({ name }) => wanted.length === 0 || wanted.some((w) => name.startsWith(w)))
  const result = verification(files)
  if (report !== undefined) writeFileSync(report, JSON.stringify({ passed: result.passed, failed: result.failed }))
  process.stdout.write(words.includes('--json') ? `${JSON.stringify(result, null, 2)}\n` : reportText(result))
  process.exitCode = result.failed === 0 && result.passed > 0 ? 0 : 1
}

if (process.argv[1] !== undefined && fileURLToPath(import.meta.url) === process.argv[1]) main(process.argv.slice(2))
