import { expect, test } from 'vitest'
import { freshMemory } from '../working/memory.ts'
import { problemText } from '../working/problem.ts'
import { add, problemsAfter, remove, replace, smallDocument } from './document.fixture.ts'
import { model } from './model.ts'

test('the small document has no problems, and its quantities are in SI at their address', () => {
  const { model: read } = model(smallDocument(), freshMemory())
  const ring = read?.project.parts['ring-front']?.solids[0]
  expect(ring?.shape === 'ring sector' && ring.outer).toEqual({
    kind: 'given',
    unit: 'm',
    value: 1.2,
    pointer: '/parts/ring-front/solids/0/outer',
  })
  expect(read?.project.systems.crane?.hooks.main?.chart?.[1]?.rated.value).toBe(20_000)
  expect([...(read?.instances.byId.keys() ?? [])]).toEqual([
    'ring-front',
    'ring-rear',
    'lug-01',
    'lug-02',
    'lug-03',
    'lug-04',
  ])
})

test('a mass keeps the basis it was given with', () => {
  const { model: read } = model(
    smallDocument(add('/parts/lug/mass', { value: '30 kg', basis: 'weighed' })),
    freshMemory(),
  )
  expect(read?.project.parts.lug?.mass?.value).toMatchObject({
    value: 30,
    basis: 'weighed',
    pointer: '/parts/lug/mass/value',
  })
})

test.each([
  [
    'a bare number where a mass is due',
    add('/parts/lug/mass', { value: 412, basis: 'weighed' }),
    '/parts/lug/mass/value: found 412, expected a mass with its unit, such as "412 t"',
  ],
  [
    'a length where a mass is due',
    replace('/stock/sling/mass', '14 m'),
    '/stock/sling/mass: found "14 m", expected a mass with its unit, such as "412 t"',
  ],
  [
    'a force where a mass is due',
    replace('/stock/sling/mass', '14 kN'),
    '/stock/sling/mass: found "14 kN", expected a mass with its unit, such as "412 t"',
  ],
  [
    'a negative mass',
    replace('/stock/sling/mass', '-14 kg'),
    '/stock/sling/mass: found "-14 kg", expected zero or more, such as "412 t"',
  ],
  [
    'a negative radius',
    replace('/parts/ring-front/solids/0/outer', '-1.2 m'),
    '/parts/ring-front/solids/0/outer: found "-1.2 m", expected zero or more, such as "63 ft 4 in"',
  ],
  [
    'a density of zero',
    replace('/materials/steel/density', '0 kg/m3'),
    '/materials/steel/density: found "0 kg/m3", expected more than zero, such as "7850 kg/m3"',
  ],
  [
    'a solid fraction above one',
    add('/parts/ring-front/solids/0/fill', 1.2),
    '/parts/ring-front/solids/0/fill: found 1.2, expected at most 1 (SI), such as "5 %"',
  ],
  [
    'a plain number where an angle is due',
    replace('/parts/lug/pattern/step', '90'),
    '/parts/lug/pattern/step: found "90", expected an angle with its unit, such as "1.4 deg"',
  ],
  [
    'something that is no ratio at all',
    add('/settings', { near: {} }),
    '/settings/near: found an object, expected a plain number or a percentage, such as "5 %"',
  ],
  [
    'a field one letter off',
    add('/joints/flange/hiddenBye', []),
    '/joints/flange/hiddenBye: found a field "hiddenBye", expected only known fields; did you mean "hiddenBy"?',
  ],
  [
    'a field one letter off in a solid of its own kind',
    add('/parts/ring-front/solids/0/iner', '1 m'),
    '/parts/ring-front/solids/0/iner: found a field "iner", expected only known fields; did you mean "inner"?',
  ],
  [
    'a field unlike any other',
    add('/about/colour', 'red'),
    '/about/colour: found a field "colour", expected only known fields',
  ],
  [
    'a section one letter off',
    add('/part', {}),
    '/part: found a field "part", expected only known fields; did you mean "parts"?',
  ],
  [
    'a shape nobody knows',
    replace('/parts/lug/solids/0/shape', 'prism'),
    '/parts/lug/solids/0/shape: found "prism", expected one of "ring sector", "cylinder", "cone", "sphere", "box", "radial box", "revolution", "extrusion", "spherical cap", "mesh"',
  ],
  [
    'a word outside a list',
    replace('/joints/flange/kind', 'glued'),
    '/joints/flange/kind: found "glued", expected one of "bolted", "welded", "pinned", "splined", "seated", "shrunk", "keyed"',
  ],
  [
    'a piece of no parts',
    replace('/pieces/rear/parts', []),
    '/pieces/rear/parts: found a list of 0, expected at least 1 entries',
  ],
  [
    'a name of no letters',
    replace('/pieces/rear/name', ''),
    '/pieces/rear/name: found "", expected a name, such as "Cutting head hub"',
  ],
  [
    'a missing name',
    remove('/pieces/rear/name'),
    '/pieces/rear/name: found nothing, expected a name, such as "Cutting head hub"',
  ],
  [
    'a point of two coordinates',
    replace('/steps/S1/moves/0/by', ['1 m', '0 m']),
    '/steps/S1/moves/0/by: found a list of 2, expected at least 3 entries',
  ],
  [
    'a move with one coordinate wrong',
    replace('/steps/S1/moves/0/by/1', '3'),
    '/steps/S1/moves/0/by/1: found "3", expected a length with its unit, such as "63 ft 4 in"',
  ],
  [
    'a fraction where a count is due',
    replace('/stock/sling/quantity', 1.5),
    '/stock/sling/quantity: found 1.5, expected a whole number',
  ],
  ['a text where a list is due', replace('/order', 'S1'), '/order: found "S1", expected a list'],
  [
    'a list where entities are due',
    add('/isolations', []),
    '/isolations: found a list of 0, expected entities by their id',
  ],
  [
    'an id with a blank',
    add('/stock/my sling', { kind: 'shackle', quantity: 1, mass: '1 kg' }),
    '/stock/my sling: found "my sling", expected an id of letters, digits, ".", "-" and "_", such as "drive-03"',
  ],
  [
    'an id with a blank further in',
    add('/pieces/front/points/the top', { at: ['0 m', '0 m', '0 m'] }),
    '/pieces/front/points/the top: found "the top", expected an id of letters, digits, ".", "-" and "_", such as "drive-03"',
  ],
  [
    'a day that no month has',
    replace('/programme/start', '2031-02-29'),
    '/programme/start: found "2031-02-29", expected a date, year-month-day, such as "2032-12-09"',
  ],
  [
    'a date written another way',
    replace('/programme/start', '3 Nov 2031'),
    '/programme/start: found "3 Nov 2031", expected a date, year-month-day, such as "2032-12-09"',
  ],
  [
    'an hour past midnight',
    replace('/programme/calendars/day/shifts/0/1', '25:00'),
    '/programme/calendars/day/shifts/0/1: found "25:00", expected a time of day, such as "07:00"',
  ],
  [
    'another version',
    replace('/schemaVersion', 2),
    '/schemaVersion: found 2, expected the version this program reads: 1, such as "1"',
  ],
  ['no title', remove('/about'), '/about: found nothing, expected an object'],
])('%s is told with its place, what was found and what is due', (_what, change, expected) => {
  expect(problemsAfter(change).map(problemText)).toEqual([expected])
})

test('"ton" alone is refused, and says what to write instead', () => {
  const [problem, ...others] = problemsAfter(replace('/stock/sling/rated', '8 ton'))
  expect(others).toEqual([])
  expect(problem).toMatchObject({ pointer: '/stock/sling/rated', found: '"8 ton"', example: '412 t' })
  expect(problem?.expected).toMatch(
    /"ton" alone is ambiguous: write "t" \(1000 kg\), "short-ton" \(2000 lb\) or "long-ton"/,
  )
})

test('a leap day is a date', () => {
  expect(problemsAfter(replace('/programme/start', '2032-02-29'))).toEqual([])
})

test.each([[null], [3], ['text'], [[]], [true]])('%j is no project', (document) => {
  const { problems } = model(document, freshMemory())
  expect(problems[0]).toMatchObject({ pointer: '', expected: 'a project: an object with schemaVersion and about' })
})

test('every fault is found in one pass: of fields, of ids and between fields, in one entity and across', () => {
  const problems = problemsAfter(
    replace('/stock/sling/mass', 14),
    replace('/stock/sling/rated', '8 ton'),
    add('/stock/sling/colour', 'red'),
    replace('/joints/flange/between/1', 'ring-reer'),
    replace('/joints/flange/bolts/count', 0),
    replace('/pieces/rear/parts', ['ring-rear', 'ring-rear']),
    replace('/systems/crane/hooks/main/chart/1/radius', '9 m'),
    replace('/lifts/front-out/rigging/legs/0/item', 'slinge'),
  )
  expect(problems.map((p) => p.pointer).sort()).toEqual([
    '/joints/flange/between/1',
    '/joints/flange/bolts/count',
    '/lifts/front-out/rigging/legs/0/item',
    '/pieces/rear/parts/1',
    '/stock/sling/colour',
    '/stock/sling/mass',
    '/stock/sling/rated',
    '/systems/crane/hooks/main/chart/1/radius',
  ])
})

test('what could not be read is there all the same: nothing that names it is called dangling', () => {
  const problems = problemsAfter(replace('/parts/lug', 7), replace('/bays/B1', null), replace('/stock/sling', 'four'))
  expect(problems.map((p) => p.pointer)).toEqual(['/parts/lug', '/bays/B1', '/stock/sling'])
})

test('an edit of one mass reads one part again and leaves everything else as it was', () => {
  const memory = freshMemory()
  const before = model(smallDocument(add('/parts/lug/mass', { value: '30 kg', basis: 'weighed' })), memory).model
  const counted = memory.computed.model as number
  const after = model(smallDocument(add('/parts/lug/mass', { value: '31 kg', basis: 'weighed' })), memory).model
  // The part, and the collection it stands in; its instances, and all by their ids; of what it names three lists, which stay
  // the same; whether its solids and its mass can be, the latter twice: looked for, and worked out.
  expect((memory.computed.model as number) - counted).toBe(10)
  expect(after?.project.parts.lug?.mass?.value.value).toBe(31)
  expect(after?.project.parts.lug?.solids).toBe(before?.project.parts.lug?.solids)
  expect(after?.project.parts['ring-front']).toBe(before?.project.parts['ring-front'])
  expect(after?.project.pieces).toBe(before?.project.pieces)
})
