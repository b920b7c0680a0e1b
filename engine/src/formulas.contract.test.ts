import { readdirSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import './index.ts'
import { seeded } from './seeded.fixture.ts'
import { type Answer, given } from './working/answer.ts'
import { allFormulas, type Formula } from './working/formula.ts'
import { lineRead } from './working/line.fixture.ts'
import { numbersLine, workingOf } from './working/show.ts'

const onImport = allFormulas().map((f) => f.text.id)
const files = readdirSync(new URL('./', import.meta.url), { recursive: true, encoding: 'utf8' }).filter((f) =>
  f.endsWith('.formulas.ts'),
)
await Promise.all(files.map((file) => import(new URL(file, import.meta.url).href)))
const formulas = allFormulas()

const STAGES = ['model', 'mass', 'strip', 'lift', 'ground', 'programme', 'risk', 'report']

test('the line from project to report loads every formula there is, so that any working can be shown', () => {
  expect(formulas.map((f) => f.text.id).filter((id) => !onImport.includes(id))).toEqual([])
  expect(formulas.length).toBeGreaterThan(50)
})

describe.each(formulas.map((f) => [f.text.id, f] as const))('%s', (id, formula) => {
  test('belongs to a stage, has a title, a source, and a meaning for every symbol', () => {
    expect(STAGES).toContain(id.split('.', 1)[0])
    expect(id).toMatch(/^[a-z]+(\.[a-z0-9-]+)+$/)
    expect(formula.text.title.trim()).not.toBe('')
    expect(formula.text.source.text.trim().length).toBeGreaterThan(3)
    const meanings = [...Object.values(formula.text.from), ...Object.values(formula.text.where ?? {})].map(
      (v) => v.at(-1) as string,
    )
    for (const meaning of meanings) expect(meaning.trim()).not.toBe('')
  })

  test('reads back from its line of numbers to the value it shows', () => {
    const samples = samplesOf(formula, 8)
    expect(samples.length, 'inputs within its limits were found').toBeGreaterThan(0)
    for (const inputs of samples) {
      const all = formula.between(inputs)
      for (const { tree, value } of [
        { tree: formula.tree, value: formula.value(inputs) },
        ...formula.steps.map((s) => ({ tree: s.tree, value: all[s.symbol] as number })),
      ]) {
        const line = numbersLine(tree, all)
        const { shown, worked } = lineRead(line)
        expect(Math.abs(shown - value), line).toBeLessThanOrEqual(0.000501 * Math.abs(value))
        expect(Math.abs(shown - worked), line).toBeLessThanOrEqual(0.000501 * Math.abs(shown))
      }
    }
  })

  test('shows what it computes, and is open for each input taken away', () => {
    const [inputs] = samplesOf(formula, 1)
    const answers = Object.fromEntries(
      Object.entries(formula.text.from).map(([symbol, [unit]]) => [
        symbol,
        given(unit, `/${symbol}`, inputs?.[symbol]),
      ]),
    ) as Record<string, Answer>
    const shown = formula.show(answers as never)
    expect(shown.value).toBe(formula.value(inputs as never))
    expect(workingOf(shown).si).toBe(shown.value)
    for (const [symbol, answer] of Object.entries(answers))
      expect(
        formula.show({ ...answers, [symbol]: { ...answer, value: undefined } } as never).value,
        symbol,
      ).toBeUndefined()
  })

  test('has slopes that agree with finite differences', () => {
    const compared = samplesOf(formula, 40).reduce((sum, inputs) => sum + slopesCompared(formula, inputs), 0)
    expect(compared, 'slopes held').toBeGreaterThan(0)
  })
})

type Inputs = Record<string, number>

/** Inputs within the limits of a formula that give a finite value: tried at random from a seed, of all sizes. */
function samplesOf(formula: Formula, count: number): Inputs[] {
  const random = seeded(formula.text.id)
  const symbols = Object.entries(formula.text.from)
  const found: Inputs[] = []
  for (let tries = 0; tries < 20_000 && found.length < count; tries++) {
    const inputs = Object.fromEntries(symbols.map(([symbol, [unit]]) => [symbol, sampled(unit, random)]))
    if (formula.broken(inputs).length === 0 && Number.isFinite(formula.value(inputs as never))) found.push(inputs)
  }
  return found
}

const EVERYWHERE = [0.05, 0.2, 0.5, 0.9, 1, 1.5, 2, 3, 5, 8, 12, 20, 40, 100, 300]

function sampled(unit: string, random: () => number): number {
  const base = EVERYWHERE[Math.floor(random() * EVERYWHERE.length)] as number
  const size = unit === '1' || unit === 'rad' ? 1 : 10 ** Math.floor(random() * 6 - 1)
  const whole = random() < 0.3
  const value = base * (unit === '1' || unit === 'rad' ? 1 : random() < 0.5 ? 1 : size)
  return whole ? Math.max(1, Math.round(value)) : value * (0.8 + 0.4 * random())
}

/** Slopes held against differences, where all of them agree: on a corner, or where rounding rules, there is nothing to hold. */
function slopesCompared(formula: Formula, inputs: Inputs): number {
  const slopes = formula.slopes(inputs as never) as Inputs
  let compared = 0
  for (const [symbol, at] of Object.entries(inputs)) {
    const value = (shift: number): number => formula.value({ ...inputs, [symbol]: at + shift } as never)
    const steps = [1e-3, -1e-3, 1e-4, -1e-4, 1e-5, -1e-5].map((share) => share * Math.abs(at))
    const differences = steps.map((step) => (value(step) - value(0)) / step)
    const size = Math.max(...differences.map(Math.abs))
    const apart = Math.max(...differences) - Math.min(...differences)
    // a table of steps is level between them, and says so; where rounding rules there is nothing to hold
    if (size === 0) {
      if (slopes[symbol] === 0) compared++
      continue
    }
    if (!Number.isFinite(size) || apart > 1e-2 * size) continue
    compared++
    const difference = Math.abs((slopes[symbol] as number) - (differences[4] as number))
    expect(difference, `∂/∂${symbol} at ${JSON.stringify(inputs)}`).toBeLessThanOrEqual(2e-2 * size)
  }
  return compared
}
