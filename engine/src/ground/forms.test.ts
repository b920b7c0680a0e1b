import { expect, test } from 'vitest'
import { checkOf, groundOf } from './ground.fixture.ts'

const form = (title: RegExp, patch: Parameters<typeof groundOf>[0] = []) => {
  const found = groundOf(patch).otherForms.find((f) => title.test(f.title))
  if (found === undefined) throw new Error(`no other form ${title}`)
  return found.answer.value
}

test('shear on the side of the sinking block only helps: that form gives more than strength below the base alone', () => {
  expect(form(/shear on the side/)).toBeGreaterThan(form(/strength below the base only/) as number)
})

test('the form that stands in the check is the one it names', () => {
  expect(checkOf('ground.base.heave').capacity.value).toBe(form(/Bjerrum and Eide/))
})

test("Terzaghi's form says nothing about a shaft deeper than wide", () => {
  expect(form(/Terzaghi/)).toBeUndefined()
})

test('the inner face of the thick ring is pressed harder than the mean that the check holds', () => {
  const factor = 1.35
  expect(form(/inner face, no factor/)).toBeGreaterThan((checkOf('ground.ring.stress').demand.value as number) / factor)
})

test('authors differ by half in the factor for weight: the method is part of the result', () => {
  const factors = [/Annex D/, /: Vesić/, /Hansen/, /Meyerhof/].map((author) => form(author) as number)
  expect(Math.max(...factors) / Math.min(...factors)).toBeGreaterThan(1.3)
})
