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

const farOff = (x: string) => ({ x, offset: '0 m' })
const pulled = [
  { op: 'replace', path: '/systems/tower/legs', value: { A: farOff('-60 m'), B: farOff('60 m') } },
  { op: 'replace', path: '/bays/B/centre', value: ['0 m', '25 m'] },
] as const

test('the chart for point loads stands beside the elastic form, of the same order, and is open for what stands nearer than it goes', () => {
  // legs far off: trailer 7 m, bay 18 m, silo 9 m, nearer track of the parked crane 6 m from the wall of 19.5 m
  const chart = form(/Chart for point loads/, pulled) as number
  const elastic = checkOf('ground.wall.surcharge', pulled).demand.value as number
  expect(chart / elastic).toBeGreaterThan(0.3)
  expect(chart / elastic).toBeLessThan(2)
  const close = [...pulled, { op: 'replace', path: '/transports/trailer/at', value: ['0 m', '9 m', '1.2 m'] } as const]
  expect(form(/Chart for point loads/, close)).toBeUndefined()
})

test('twice the load is twice the pressure by the chart', () => {
  const only = [
    ...pulled,
    { op: 'remove', path: '/transports/trailer' } as const,
    { op: 'remove', path: '/bays/B/piles' } as const,
  ]
  const silo = (t: number) => form(/Chart for point loads/, [...only, { op: 'replace', path: '/ground/plant/silo/mass', value: `${t} t` }]) as number // biome-ignore format: one call
  expect(silo(200) - silo(100)).toBeCloseTo(silo(300) - silo(200), 3)
})

test('a thicker slab holds the shaft down better, a higher head lifts it more', () => {
  const afloat = /whole shaft afloat/
  const plain = form(afloat) as number
  expect(form(afloat, [{ op: 'replace', path: '/shaft/slabThickness', value: '1.8 m' }])).toBeGreaterThan(plain)
  expect(form(afloat, [{ op: 'replace', path: '/ground/water/upper/head', value: '-1 m' }])).toBeLessThan(plain)
})

test('hydraulic failure in total stress, by hand: 1.35 of the water under the plug over 0.9 of its weight', () => {
  // 6.5 m of clay at 20 kN/m³ over water drawn down to -20 m, the plug's underside at -26 m
  expect(form(/total stress/)).toBeCloseTo((1.35 * 9.81 * 6) / (0.9 * 20 * 6.5), 2)
})

test('two strips at the ends of the arc carry the weight between them and push outwards', () => {
  const [N, H] = [form(/reaction of one/) as number, form(/outward push/) as number]
  const beta = (50 * Math.PI) / 180
  expect(H / N).toBeCloseTo(Math.sin(beta), 9)
})
