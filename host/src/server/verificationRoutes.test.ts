import { expect, test } from 'vitest'
import { verificationRoutes } from './verificationRoutes.ts'

const told = async (query: string) => {
  const response = await verificationRoutes().request(`/${query}`)
  return { status: response.status, body: (await response.json()) as Record<string, never> }
}

test('the cases of a formula are run when they are asked for, each with what was expected and what came', async () => {
  const { body } = await told('?function=lift.hook.load-with-dynamics')
  const cases = body.cases as unknown as { function: string; basis: string; verdict: string; comparisons: unknown[] }[]
  expect(cases.length).toBeGreaterThan(1)
  for (const one of cases) {
    expect(one).toMatchObject({ function: 'lift.hook.load-with-dynamics', verdict: 'pass' })
    expect(one.comparisons.length).toBeGreaterThan(0)
  }
})

test('a formula that no case calls has none, and a stage names what its cases call', async () => {
  expect((await told('?function=no.such.formula')).body).toEqual({ cases: [] })
  const { functions } = (await told('?stage=lift')).body as unknown as { functions: unknown }
  expect(functions).toContainEqual({ function: 'lift.hang', cases: expect.any(Number) })
})

test('asked for nothing, it says what to ask for', async () => {
  expect(await told('')).toMatchObject({ status: 400, body: { problems: [{ expected: 'function=ID or stage=NAME' }] } })
})
