import { expect, test } from 'vitest'
import type { Operation, Patch } from '../working/patch.ts'
import { checkOf, groundOf, site } from './ground.fixture.ts'

// Inputs that are missing or fall short must leave a check open: none of them may let it pass, or make it vanish.

const gone = (path: string): Operation => ({ op: 'remove', path })

test('layers that end above the excavation leave the wall below them open', () => {
  const layers = Object.entries(site.ground.layers).sort(
    ([, a], [, b]) => Number.parseFloat(b.top) - Number.parseFloat(a.top),
  )
  const short: Patch = layers
    .filter(([, { bottom }]) => Number.parseFloat(bottom) < -19)
    .map(([id, { top }]) =>
      Number.parseFloat(top) > -10
        ? {
            op: 'replace',
            path: `/ground/layers/${id}/bottom`,
            value: `${(Number.parseFloat(top) - 0.5).toString()} m`,
          }
        : gone(`/ground/layers/${id}`),
    )
  const kept = new Set(layers.map(([id]) => id))
  for (const { op, path } of short) if (op === 'remove') kept.delete(path.split('/').at(-1) as string)
  const water: Patch = Object.entries(site.ground.water).flatMap(([id, { layers: of }]) =>
    of.every((layer) => kept.has(layer)) ? [] : [gone(`/ground/water/${id}`)],
  )
  expect(short.length).toBeGreaterThan(0)
  expect(checkOf('ground.ring.stress', [...water, ...short]).verdict).toBe('open')
})

test('a wall whose circle is not given leaves surcharge and heave open, and takes neither away', () => {
  const patch = [gone('/shaft/wall/ringDiameter')]
  const surcharges = groundOf(patch).checks.filter((c) => c.kind === 'ground.wall.surcharge')
  expect(surcharges.map((c) => c.verdict)).toEqual(groundOf([]).steps.map(() => 'open'))
  expect(checkOf('ground.base.heave', patch).verdict).toBe('open')
})

test('what stands on the ring round the shaft in part counts whole against heave', () => {
  const demand = (patch: Patch) => checkOf('ground.base.heave', patch).utilisation as number
  const plant = (x: number): Patch => [
    {
      op: 'add',
      path: '/ground/plant/bunker',
      value: { what: 'bunker', centre: [`${x} m`, '0 m'], size: ['12 m', '2 m'], mass: '400 t' },
    },
  ]
  // the ring ends 0.7 × 12 m beyond a radius of 7.4 m; the bunker reaches from 14 m to 26 m
  expect(demand(plant(20))).toBeGreaterThan(demand([]))
  expect(demand(plant(60))).toBe(demand([]))
})

test('a service with a limit and half a place is open', () => {
  const [id = ''] = Object.entries(site.utilities).find(([, u]) => 'axis' in u) ?? []
  const of = (patch: Patch) =>
    groundOf(patch).checks.filter((c) => c.kind === 'ground.service.stress' && c.subject.id === id)
  expect(of([]).map((c) => c.verdict)).not.toEqual(['open'])
  expect(of([gone(`/utilities/${id}/axis`)]).map((c) => c.verdict)).toEqual(['open'])
})

test('a crane that nobody has said where it stands leaves the wall beside its step open', () => {
  const crane = [
    { op: 'replace', path: '/lifts/out/system', value: 'crane' },
    { op: 'replace', path: '/lifts/out/hook', value: 'main' },
  ] as const
  const wall = (patch: Patch) => checkOf('ground.wall.surcharge', patch).reasons.join()
  const somewhere: Patch = [...crane, { op: 'add', path: '/systems/crane/standings/1', value: ['40 m', '0 m'] }]
  expect(wall(somewhere)).toContain('/lifts/out/standing')
  expect(wall([...somewhere, { op: 'add', path: '/lifts/out/standing', value: 0 }])).not.toContain(
    '/lifts/out/standing',
  )
})

test('a crane that carries a lift and says nothing of its level is open, as a runway is', () => {
  const levels = (patch: Patch) =>
    Object.fromEntries(
      groundOf(patch)
        .checks.filter((c) => c.kind === 'ground.runway.level')
        .map((c) => [c.subject.id, c.verdict]),
    )
  expect(levels([])).toMatchObject({ crane: 'pass', tower: 'pass' })
  expect(levels([gone('/systems/crane/level')])).toMatchObject({ crane: 'open', tower: 'pass' })
})
