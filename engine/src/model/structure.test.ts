import { expect, test } from 'vitest'
import { problemText } from '../working/problem.ts'
import { add, problemsAfter, replace } from './document.fixture.ts'

const told = (...changes: Parameters<typeof problemsAfter>): string[] => problemsAfter(...changes).map(problemText)

test('a joint holds two parts together', () => {
  expect(told(replace('/joints/flange/between/1', 'ring-front'))).toEqual([
    '/joints/flange/between/1: found "ring-front" again, expected another one: a joint holds two parts together',
  ])
})

test('a service runs from one thing to another', () => {
  expect(told(replace('/services/hose-1/to', 'cabin'))).toEqual([
    '/services/hose-1/to: found "cabin" again, expected another one: a service runs from one thing to another',
  ])
})

test('a part is once in a piece, by its own id or by its entry', () => {
  expect(told(replace('/pieces/front/parts', ['ring-front', 'lug', 'lug-03']))).toEqual([
    '/pieces/front/parts/2: found "lug-03" a second time, expected each part once in a piece',
  ])
})

test('two pieces may share parts: what leaves as one may be taken apart on a bay', () => {
  expect(told(replace('/pieces/rear/parts', ['ring-rear', 'lug']))).toEqual([])
})

test('an entry may not take the id that a pattern gives', () => {
  const entry = {
    name: 'Odd lug',
    material: 'steel',
    solids: [{ shape: 'sphere', radius: '0.1 m', centre: ['3 m', '0 m', '0 m'] }],
  }
  expect(told(add('/parts/lug-02', entry))).toEqual([
    '/parts/lug-02: found an id that a part of the pattern of "lug" has already, expected an id of its own',
  ])
  expect(told(add('/parts/lug-05', entry))).toEqual([])
})

test('an end outside the machine may not take the id of a part', () => {
  expect(told(add('/ends/lug-01', { name: 'Pump' }))).toEqual([
    '/ends/lug-01: found an id that a part of the machine has already, expected an id of its own',
  ])
})

// Ring r = 1.0 to 1.2 m, 1 m long: V = π (1.44 − 1) = 1.382 m³, in solid steel 10.85 t (by hand).
test.each([
  ['10.85 t', []],
  ['27 t', []],
  [
    '28 t',
    ['/parts/ring-front/mass/value: found 28000 kg in 1.38 m3, expected at most 20000 kg/m3: no metal is denser'],
  ],
  [
    '10850 t',
    ['/parts/ring-front/mass/value: found 10850000 kg in 1.38 m3, expected at most 20000 kg/m3: no metal is denser'],
  ],
  ['22 kg', []],
  [
    '10.85 kg',
    [
      '/parts/ring-front/mass/value: found 10.85 kg in 1.38 m3, expected about 10851 kg, as its shape and material give',
    ],
  ],
])('a ring of 1.38 m3 of steel may not weigh a thousand times more or less: %s', (value, expected) => {
  expect(told(add('/parts/ring-front/mass', { value, basis: 'estimated' }))).toEqual(expected)
})

test('a light solid fraction explains a light part', () => {
  expect(
    told(
      add('/parts/ring-front/solids/0/fill', 0.001),
      add('/parts/ring-front/mass', { value: '10.85 kg', basis: 'estimated' }),
    ),
  ).toEqual([])
})

test.each([
  [
    '/parts/ring-front/solids/0/outer',
    '0.9 m',
    '/parts/ring-front/solids/0/outer: found 0.9 m, expected more than the inner radius',
  ],
  [
    '/parts/ring-front/solids/0/outer',
    '1 m',
    '/parts/ring-front/solids/0/outer: found 1 m, expected more than the inner radius',
  ],
  [
    '/parts/ring-front/solids/0/along',
    ['1 m', '1 m'],
    '/parts/ring-front/solids/0/along: found a span of no length, expected a solid that encloses some volume',
  ],
  [
    '/parts/ring-front/solids/0/angles',
    ['30 deg', '30 deg'],
    '/parts/ring-front/solids/0/angles: found a sector of no angle, expected a solid that encloses some volume',
  ],
  [
    '/parts/ring-front/solids/0/angles',
    ['0 deg', '400 deg'],
    '/parts/ring-front/solids/0/angles: found more than a whole turn, expected at most 360 deg, such as "30 deg"',
  ],
  [
    '/parts/lug/solids/0/across',
    '0 m',
    '/parts/lug/solids/0/across: found zero, expected more than zero, such as "1.2 m"',
  ],
])('a solid encloses something: %s of %j does not', (path, value, expected) => {
  expect(told(replace(path, value))).toEqual([expected])
})

test('a bay stands clear of shaft and wall', () => {
  // Pile centres on a circle of 11 m, piles of 1 m: the wall ends 6.0 m from the axis. The bay is 8 m square.
  expect(told(replace('/bays/B1/centre', ['0 m', '10 m']))).toEqual([])
  expect(told(replace('/bays/B1/centre', ['0 m', '9.9 m']))).toEqual([
    "/bays/B1/centre: found a bay that comes to 5.9 m of the shaft's axis, expected clear of shaft and wall, 6 m or more",
  ])
  // By its corner: 4.5 m each way is 6.36 m off, 4.2 m each way 5.94 m.
  expect(told(replace('/bays/B1/centre', ['8.5 m', '8.5 m']))).toEqual([])
  expect(told(replace('/bays/B1/centre', ['8.2 m', '8.2 m']))).toHaveLength(1)
})

test.each([
  ['/shaft/wall/toe', '-21 m', '/shaft/wall/toe: found -21 m, expected below the excavation at -22 m'],
  ['/shaft/excavation', '-20 m', '/shaft/excavation: found -20 m, expected below the top of the slab at -20 m'],
  ['/shaft/slabTop', '1 m', '/shaft/slabTop: found 1 m, expected below the collar at 0 m'],
  [
    '/ground/water/one/drawnDown',
    '-3 m',
    '/ground/water/one/drawnDown: found -3 m, expected below the head before at -4 m',
  ],
  ['/ground/water/one/wells/needed', 7, '/ground/water/one/wells/needed: found 7, expected at most the 6 installed'],
])('levels lie in their order: %s at %s does not', (path, value, expected) => {
  expect(told(replace(path, value))).toEqual([expected])
})

test('layers of the ground meet: none is left out, none is there twice', () => {
  expect(told(replace('/ground/layers/sand/top', '-3.5 m'))).toEqual([
    '/ground/layers/sand/top: found -3.5 m: 0.5 m of ground left out, expected the level of the bottom of "fill", -3 m',
  ])
  expect(told(replace('/ground/layers/sand/top', '-2 m'))).toEqual([
    '/ground/layers/sand/top: found -2 m: 1 m of ground twice, expected the level of the bottom of "fill", -3 m',
  ])
  expect(told(replace('/ground/layers/fill/top', '-1 m'))).toEqual([
    '/ground/layers/fill/top: found -1 m: 1 m of ground left out, expected the level of the surface, 0 m',
  ])
  expect(told(replace('/ground/layers/sand/bottom', '-2 m'))).toEqual([
    '/ground/layers/sand/bottom: found -2 m, expected below its top at -3 m',
  ])
})

test.each([
  ['/ground/layers/sand/phi', '0.6 deg', []],
  [
    '/ground/layers/sand/phi',
    '75 deg',
    [
      '/ground/layers/sand/phi: found 75 deg, expected a friction angle of soil, from 0 deg to 55 deg, such as "32 deg"',
    ],
  ],
  [
    '/ground/layers/sand/phi',
    '33 rad',
    [
      '/ground/layers/sand/phi: found 1890.76 deg, expected a friction angle of soil, from 0 deg to 55 deg, such as "32 deg"',
    ],
  ],
  [
    '/ground/layers/sand/phi',
    '-5 deg',
    [
      '/ground/layers/sand/phi: found -5 deg, expected a friction angle of soil, from 0 deg to 55 deg, such as "32 deg"',
    ],
  ],
])('friction is what soil has: %s at %s', (path, value, expected) => {
  expect(told(add(path, value))).toEqual(expected)
})

test('ground does not pull: cohesion below zero is refused at its place', () => {
  expect(told(add('/ground/layers/sand/cohesion', '-2 kPa'))).toEqual([
    expect.stringMatching(/^\/ground\/layers\/sand\/cohesion: found "?-2 kPa"?/),
  ])
})

test('water of the top layer does not stand above the ground, confined water may', () => {
  const water = (layers: string[], head: string, tide = '0 m') => add('/ground/water/two', { layers, head, tide })
  expect(told(water(['fill'], '0 m'))).toEqual([])
  expect(told(water(['fill'], '0.4 m'))).toEqual([
    '/ground/water/two/head: found water up to 0.4 m, expected at most the surface at 0 m, for the top layer holds it',
  ])
  expect(told(water(['fill'], '-0.5 m', '0.7 m'))).toEqual([
    '/ground/water/two/head: found water up to 0.2 m, expected at most the surface at 0 m, for the top layer holds it',
  ])
  expect(told(replace('/ground/water/one/head', '0.4 m'))).toEqual([])
})

test('a layer holds one water: a second on it is refused, and both are named', () => {
  const water = (layers: string[]) => add('/ground/water/two', { layers, head: '-4 m' })
  expect(told(water(['sand']))).toEqual([
    '/ground/water/two/layers/0: found layer "sand", which water "one" holds already, expected a layer that no other water holds: one head for each layer; the higher of two where both are possible, or the layer divided where they part',
  ])
})

test('a crane has no more headings than standings', () => {
  expect(told(add('/systems/crane/headings', ['90 deg']))).toEqual([])
  expect(told(add('/systems/crane/headings', ['90 deg', '0 deg']))).toEqual([
    '/systems/crane/headings: found 2 headings, expected at most one for each of its 1 standings',
  ])
})

test('a thing fixed in the shaft reaches from the lesser to the greater', () => {
  const duct = { what: 'duct', x: ['1 m', '2 m'], y: ['2 m', '1 m'], z: ['-20 m', '0 m'] }
  expect(told(add('/shaft/obstructions', { duct }))).toEqual([
    '/shaft/obstructions/duct/y: found from 2 m to 1 m, expected a span from the lesser to the greater',
  ])
})

test('radii rise along a chart', () => {
  expect(told(replace('/systems/crane/hooks/main/chart/1/radius', '10 m'))).toEqual([
    '/systems/crane/hooks/main/chart/1/radius: found 10 m, expected more than the 10 m before it: radii rise along a chart',
  ])
})

test('mats of a crane do not overlap, and lie under its tracks', () => {
  const floats = { base: ['8 m', '7 m'], mat: ['7.5 m', '7.5 m'] }
  expect(told(add('/systems/crane/outriggers', floats))).toEqual([
    '/systems/crane/outriggers/mat/1: found 7.5 m, expected no more than the 7 m between two floats',
  ])
  const tracks = { length: '9 m', width: '1 m', gauge: '6 m', mat: ['9.5 m', '6 m'] }
  expect(told(add('/systems/crane/tracks', tracks))).toEqual([
    '/systems/crane/tracks/mat/0: found 9.5 m, expected no more than the 9 m over which a track bears',
  ])
})

test('a lug keeps some of its plate about the hole, and its pin goes through it', () => {
  const lug = { plate: '40 mm', hole: '160 mm', pin: '165 mm', radius: '80 mm', yield: '345 MPa' }
  expect(told(add('/pieces/front/points/lug', { at: ['0 m', '0 m', '0 m'], lug }))).toEqual([
    '/pieces/front/points/lug/lug/hole: found 160 mm, expected less than 160 mm, twice from its centre to the edge: nothing is left of the plate',
    '/pieces/front/points/lug/lug/pin: found 165 mm, expected no more than the hole of 160 mm that it goes through',
  ])
})

test('a lift stands where its crane has a standing', () => {
  expect(told(replace('/lifts/front-out/standing', 1))).toEqual([
    '/lifts/front-out/standing: found 1, expected a standing of crane, counted from 0; it has 1',
  ])
  const tail = { hook: 'main', rigging: { legs: [] }, standing: 2 }
  expect(told({ op: 'add', path: '/lifts/front-out/tail', value: tail })).toContain(
    '/lifts/front-out/tail/standing: found 2, expected a standing of crane, counted from 0; it has 1',
  )
})

test('a step is lifted by a lift of its own piece', () => {
  expect(told(replace('/steps/S1/piece', 'rear'))).toEqual([
    '/steps/S1/lift: found a lift of "front", expected a lift of "rear", which this step moves',
  ])
})

test('a step is once in the order', () => {
  expect(told(replace('/order', ['S1', 'S1']))).toEqual([
    '/order/1: found "S1" a second time, expected each step once in the order',
  ])
})

const link = (to: string, type: string) => ({ to, type })

test.each([
  ['FS', 'FS'],
  ['SS', 'SS'],
  ['FF', 'FF'],
  ['FS', 'SS'],
  ['SF', 'FS'],
])('two activities after one another are a circle, tied %s and %s', (there, back) => {
  const problems = problemsAfter(
    add('/programme/activities/A1/after', [link('A2', there)]),
    replace('/programme/activities/A2/after', [link('A1', back)]),
  )
  expect(problems).toHaveLength(1)
  expect(problems[0]?.found).toMatch(/^a circle: (A1 after A2 after A1|A2 after A1 after A2)$/)
})

test.each([
  ['SS', 'FF'],
  ['FF', 'SS'],
  ['SF', 'SF'],
])('two activities that share starts or finishes are no circle, tied %s and %s', (there, back) => {
  expect(
    told(
      add('/programme/activities/A1/after', [link('A2', there)]),
      replace('/programme/activities/A2/after', [link('A1', back)]),
    ),
  ).toEqual([])
})

test('an activity after itself is a circle', () => {
  expect(told(replace('/programme/activities/A2/after', [link('A2', 'FS')]))).toEqual([
    '/programme/activities/A2/after: found a circle: A2 after A2, expected predecessors that do not come back to where they began',
  ])
})

test('tests that wait for each other are a circle', () => {
  expect(told(add('/tests/T1/after', ['T2']))).toEqual([
    '/tests/T1/after: found a circle: T1 after T2 after T1, expected predecessors that do not come back to where they began',
  ])
})

test('shifts of a day do not overlap, and a night shift runs past midnight', () => {
  const shifts = (...all: [string, string][]) => replace('/programme/calendars/day/shifts', all)
  expect(told(shifts(['06:00', '15:00'], ['15:00', '24:00']))).toEqual([])
  expect(told(shifts(['06:00', '14:00'], ['22:00', '06:00']))).toEqual([])
  expect(told(shifts(['06:00', '14:00'], ['22:00', '07:00']))).toEqual([
    '/programme/calendars/day/shifts/1: found 22:00 to 07:00, expected a shift clear of the others',
  ])
})

test('no day has more productive hours than its shifts are long', () => {
  expect(told(replace('/programme/calendars/day/hoursPerDay', 10.5))).toEqual([
    '/programme/calendars/day/hoursPerDay: found 10.5, expected at most the 10 h of its shifts',
  ])
})

test('a risk goes with another, not with itself', () => {
  const risk = { risk: 'Rain', probability: 0.1, delayDays: [1, 2, 3], activities: ['A1'] }
  expect(told(add('/risks', { R1: risk }), add('/correlations', { c: { between: ['R1', 'R1'], r: 0.5 } }))).toEqual([
    '/correlations/c/between/1: found "R1" again, expected another risk',
  ])
})

test('an issue of the campaign book is called by its letter', () => {
  const digest = 'a'.repeat(64)
  const issue = { on: '2031-11-03', by: 'engineer', revision: 3, content: digest, sheets: 12, file: digest }
  expect(told(add('/issuedBooks', { A: issue, AB: { ...issue, since: 'issue A' } }))).toEqual([])
  expect(told(add('/issuedBooks', { first: issue }))).toEqual([
    '/issuedBooks/first: found "first", expected the letter of the issue, one or two capitals, such as "B"',
  ])
})
