import fc from 'fast-check'
import { expect, test } from 'vitest'
import { given, stated } from './answer.ts'
import { allFormulas, type FormulaText, formula, formulaById } from './formula.ts'

const source = { basis: 'derived', text: 'vertical equilibrium of n equal legs' } as const

const legTension = formula({
  id: 'test.sling.leg-tension',
  title: 'Tension in one of n equal legs',
  source,
  gives: ['T', 'N'],
  from: {
    W: ['N', 'weight under the hook'],
    n: ['1', 'legs that carry'],
    beta: ['rad', 'angle of a leg from the vertical'],
  },
  as: 'W / (n * cos(beta))',
  valid: ['beta < 1.05', 'n >= 1'],
})

const drag = formula({
  id: 'test.wind.drag',
  title: 'Drag on a sail area',
  source: { basis: 'derived', text: 'F = q A' },
  gives: ['F', 'N'],
  from: { rho: ['kg/m3', 'density of air'], v: ['m/s', 'wind speed'], A: ['m2', 'sail area'] },
  where: { q: ['Pa', '0.5 * rho * v^2', 'dynamic pressure'] },
  as: 'q * A',
})

/** What an import of this text would throw; undefined when it would not. */
function refusal(
  text: Partial<FormulaText<Record<string, readonly ['N' | 'kg' | '1' | 'm' | 'rad' | 'Pa', string]>, 'N'>>,
): string | undefined {
  try {
    formula({
      id: `test.refused.${refused++}`,
      title: 'x',
      source,
      gives: ['F', 'N'],
      from: { m: ['kg', 'mass'] },
      as: 'm',
      ...text,
    } as never)
    return undefined
  } catch (error) {
    return (error as Error).message
  }
}
let refused = 0

test('four legs at 0.35 rad share 4.04 MN', () => {
  // By hand: 4.04e6 / (4 cos 0.35) = 1.0752e6 N.
  expect(legTension.value({ W: 4.04e6, n: 4, beta: 0.35 })).toBeCloseTo(1.0751855e6, -1)
})

test('a formula for a force that gives a mass throws on import, naming itself', () => {
  expect(refusal({ as: 'm * 9.81' })).toBe('formula test.refused.0: "F" does not come out in N')
})

test.each([
  [{ as: 'm *' }, 'unexpected "end"'],
  [{ as: 'm * g' }, 'symbol "g" is not declared'],
  [{ from: { m: ['kg', 'mass'], g: ['1', 'unused'] }, as: 'm' }, 'symbol "g" is declared and never used'],
  [{ from: { a: ['N', 'force'], b: ['kg', 'mass'] }, as: 'a + b' }, 'dimensions differ in "+"'],
  [{ from: { a: ['N', 'force'], b: ['kg', 'mass'] }, as: 'max(a, b)' }, 'dimensions differ in max'],
  [
    { from: { a: ['N', 'force'], b: ['kg', 'mass'] }, as: 'if(a > 0, a, b)' },
    'dimensions differ in the two branches of if',
  ],
  [{ from: { a: ['N', 'force'], b: ['m', 'length'] }, as: 'a * sin(b)' }, 'sin takes a plain number or an angle'],
  [
    { from: { a: ['N', 'force'], b: ['1', 'exponent'] }, as: 'a ^ b' },
    'a power of something with a dimension must be a plain number',
  ],
  [{ from: { a: ['N', 'force'], b: ['m', 'length'] }, as: 'a', valid: ['b < 3'] }, 'dimensions differ in "<"'],
  [
    { from: { a: ['N', 'force'] }, where: { q: ['Pa', 'a', 'pressure'] }, as: 'a + 0 * q' },
    '"q" does not come out in Pa',
  ],
  [
    { from: { a: ['N', 'force'] }, where: { p: ['N', 'r', 'x'], r: ['N', 'a', 'y'] }, as: 'p + r' },
    '"r" is used before it is worked out',
  ],
  [{ id: 'test.wind.drag', from: { a: ['N', 'force'] }, as: 'a' }, 'this id is taken'],
] as const)('%j throws on import: %s', (text, message) => {
  expect(refusal(text as never)).toContain(message)
})

test('roots and powers carry the dimension with them', () => {
  expect(refusal({ from: { a: ['N', 'force'], b: ['N', 'force'] }, as: 'sqrt(a^2 + b^2)' } as never)).toBeUndefined()
  expect(refusal({ from: { a: ['N', 'force'] }, as: '(a^3)^(1/3)' } as never)).toBeUndefined()
  expect(refusal({ from: { a: ['N', 'force'] }, as: 'max(0, a)' } as never)).toBeUndefined()
})

test('a formula shown keeps its inputs, and names itself', () => {
  const W = given('N', '/lifts/x/load', 4.04e6)
  const shown = legTension.show({ W, n: stated('1', 4, 'legs'), beta: given('rad', '/lifts/x/angle', 0.35) })
  expect(shown).toMatchObject({ kind: 'worked', unit: 'N', formula: 'test.sling.leg-tension' })
  expect(shown.inputs.W).toBe(W)
  expect(shown.value).toBe(legTension.value({ W: 4.04e6, n: 4, beta: 0.35 }))
})

test('a missing input makes the answer unknown, whichever it is', () => {
  const inputs = { W: given('N', '/W', 1), n: given('1', '/n', 4), beta: given('rad', '/beta', 0.1) }
  for (const symbol of ['W', 'n', 'beta'] as const) {
    const without = { ...inputs, [symbol]: given(inputs[symbol].unit, `/${symbol}`, undefined) }
    expect(legTension.show(without as typeof inputs).value).toBeUndefined()
  }
})

test('outside its limits a formula gives no number, and says which limit', () => {
  const shown = legTension.show({ W: given('N', '/W', 1e6), n: given('1', '/n', 4), beta: given('rad', '/beta', 1.2) })
  expect(shown.value).toBeUndefined()
  expect(shown.broken).toEqual(['beta < 1.05'])
})

test('a result beyond the numbers is unknown, not infinite', () => {
  const shown = drag.show({ rho: given('kg/m3', '/rho', 1e308), v: given('m/s', '/v', 1e10), A: given('m2', '/A', 1) })
  expect(shown).toMatchObject({ value: undefined, broken: ['a finite result'] })
})

test('named values on the way are worked out in order', () => {
  expect(drag.between({ rho: 1.25, v: 10, A: 4 }).q).toBe(62.5)
  expect(drag.value({ rho: 1.25, v: 10, A: 4 })).toBe(250)
})

test('slopes go through the named values', () => {
  // By hand: ∂F/∂v = ρ v A, ∂F/∂A = ½ ρ v², ∂F/∂ρ = ½ v² A.
  const slopes = drag.slopes({ rho: 1.25, v: 10, A: 4 })
  expect(slopes.v).toBeCloseTo(50, 12)
  expect(slopes.A).toBeCloseTo(62.5, 12)
  expect(slopes.rho).toBeCloseTo(200, 12)
})

test('value and show agree, and leave their inputs as they were', () => {
  const positive = fc.double({ min: 0.01, max: 1e6, noNaN: true })
  fc.assert(
    fc.property(positive, positive, positive, (rho, v, A) => {
      const inputs = Object.freeze({
        rho: given('kg/m3', '/rho', rho),
        v: given('m/s', '/v', v),
        A: given('m2', '/A', A),
      })
      expect(drag.show(inputs).value).toBe(drag.value({ rho, v, A }))
    }),
  )
})

test('a formula is found by its id, and an id that nobody has is a fault of our own', () => {
  expect(formulaById('test.wind.drag')).toBe(drag)
  expect(allFormulas()).toContain(legTension)
  expect(() => formulaById('test.wind.dragg')).toThrow('formula "test.wind.dragg" is not known')
})
