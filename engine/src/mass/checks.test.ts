import { describe, expect, test } from 'vitest'
import type { Check } from '../working/check.ts'
import { freshMemory } from '../working/memory.ts'
import { applyPatch } from '../working/patch.ts'
import {
  block,
  cubeAt,
  known,
  massOf,
  modelOf,
  onePiece,
  POSE,
  projectOf,
  SETTINGS,
  weighedByCells,
} from './mass.fixture.ts'
import { mass } from './mass.ts'

type Raw = Readonly<Record<string, unknown>>

const checksOf = (sections: Raw, kind: string): Check[] => massOf(sections).checks.filter((c) => c.kind === kind)
const verdictsOf = (sections: Raw, kind: string): string[] => checksOf(sections, kind).map((c) => c.verdict)

describe('a stated mass against its solids', () => {
  const stated = (m: string) => ({ parts: { a: block({ mass: known(m) }) } })
  test.each([
    ['7850 kg', 'pass'],
    ['8.4 t', 'pass'],
    ['8.5 t', 'near'],
    ['8.6 t', 'fail'],
    ['7.2 t', 'fail'],
  ])('of %s for a cubic metre of steel, known to 4 % at a coverage of 2: %s', (m, verdict) => {
    expect(verdictsOf(stated(m), 'mass.part.solids')).toEqual([verdict])
  })
  test('without a stated mass there is nothing to hold against the solids, and no record', () => {
    const sections = { parts: { a: block({ mass: undefined }) } }
    expect(checksOf(sections, 'mass.part.solids')).toEqual([])
    expect(verdictsOf(sections, 'mass.part.record')).toEqual(['open'])
  })
})

describe('a record of how a mass is known', () => {
  test('is open while anything is missing, and says what', () => {
    for (const field of ['uncertainty', 'date', 'source']) {
      const [found] = checksOf(
        { parts: { a: block({ mass: known('7850 kg', { [field]: undefined }) }) } },
        'mass.part.record',
      )
      expect(found?.verdict).toBe('open')
      expect(found?.reasons).toEqual([`/parts/a/mass/${field} is not given`])
    }
  })
})

describe('the roll-up of a group', () => {
  const group = (mass: string, uncertainty: number, parts = 2) => ({
    parts: {
      a: block({ group: 'drive', pattern: { kind: 'along a line', count: parts, step: ['2 m', '0 m', '0 m'] } }),
      b: block({ group: 'head' }),
    },
    machine: { pose: POSE, groupTotals: { drive: { mass, uncertainty } } },
  })
  test('counts the instances of its entries and no others', () => {
    const [found] = checksOf(group('15.7 t', 0), 'mass.group.total')
    expect(found?.demand.value).toBeCloseTo(0, 6)
  })
  test('may differ by the uncertainty of both, at the coverage set', () => {
    const u = Math.hypot(2 * 7850 * 0.04, 17e3 * 0.03)
    const [found] = checksOf(group('17 t', 0.03), 'mass.group.total')
    expect(found?.capacity.value).toBeCloseTo(2 * u, 6)
    expect(verdictsOf(group('17 t', 0.03), 'mass.group.total')).toEqual(['pass'])
    expect(verdictsOf(group('20 t', 0.03), 'mass.group.total')).toEqual(['fail'])
  })
  test('of a group that no part belongs to fails, for the total is not nothing', () => {
    const sections = {
      parts: { a: block() },
      machine: { pose: POSE, groupTotals: { drive: { mass: '5 t', uncertainty: 0.03 } } },
    }
    expect(verdictsOf(sections, 'mass.group.total')).toEqual(['fail'])
  })
})

describe('the pose against the survey', () => {
  const at = (site: string[]) => ({
    parts: { a: block() },
    machine: { pose: { ...POSE, survey: { tail: { machine: ['0 m', '1 m', '0 m'], site, accuracy: '2 mm' } } } },
  })
  test('turned a quarter to the left, what was left of the machine lies behind it', () => {
    const [found] = checksOf(at(['1 m', '0 m', '-20 m']), 'mass.pose.survey')
    expect(found?.demand.value).toBeCloseTo(0, 12)
  })
  test('a point 6 mm off is out of a tolerance of 5 mm', () => {
    expect(verdictsOf(at(['1.006 m', '0 m', '-20 m']), 'mass.pose.survey')).toEqual(['fail'])
  })
  test('a machine that nobody has surveyed is open', () => {
    expect(verdictsOf({ parts: { a: block() }, machine: { pose: POSE } }, 'mass.pose.survey')).toEqual(['open'])
  })
})

describe('the allowance against the uncertainty', () => {
  const uncertain = (uncertainty: number, settings: Raw = SETTINGS) =>
    onePiece({}, { parts: { block: block({ mass: known('7850 kg', { uncertainty }) }) }, settings })
  test('an allowance less than the standard uncertainty is too small', () => {
    expect(verdictsOf(uncertain(0.06), 'mass.set.uncertainty')).toEqual(['fail'])
    expect(verdictsOf(uncertain(0.04), 'mass.set.uncertainty')).toEqual(['pass'])
  })
  test('both rules are shown, and which one counts', () => {
    const parts = { a: block(), b: block({ solids: [cubeAt(3, 0, 0)] }) }
    const pieces = { lift: { name: 'Lift', parts: ['a', 'b'], retained: '0 kg' } }
    const [found] = checksOf({ parts, pieces }, 'mass.set.uncertainty')
    expect(found?.assumptions[0]).toContain('on their own: 444 kg')
    expect(found?.assumptions[0]).toContain('all erring together: 628 kg')
    expect(found?.assumptions[0]).toContain('counts them as independent')
  })
  test('a piece that goes back otherwise than it came is checked for both', () => {
    const changes = { new: { kind: 'replace', what: 'New', status: 'approved', parts: ['block'], factor: 1.2 } }
    const found = checksOf(onePiece({}, { changes }), 'mass.set.uncertainty')
    expect(found.map((c) => c.id)).toEqual(['mass.set.uncertainty/lift/found', 'mass.set.uncertainty/lift/returned'])
  })
  test('one that is scrapped is checked as found alone', () => {
    const weighings = { first: { piece: 'lift', measured: '8 t', accuracy: 0.01 } }
    const found = checksOf(
      onePiece({}, { parts: { block: block({ fate: 'scrapped' }) }, weighings }),
      'mass.set.uncertainty',
    )
    expect(found.map((c) => c.id)).toEqual(['mass.set.uncertainty/lift/found'])
  })
})

describe('a load reading', () => {
  const reading = (measured: string, more: Raw = {}) =>
    onePiece({}, { weighings: { first: { piece: 'lift', measured, accuracy: 0.01, ...more } } })
  test('inside the band of 5 % passes, outside fails', () => {
    expect(verdictsOf(reading('8 t'), 'mass.weighed.band')).toEqual(['pass'])
    expect(verdictsOf(reading('8.3 t'), 'mass.weighed.band')).toEqual(['fail'])
    expect(verdictsOf(reading('7.4 t'), 'mass.weighed.band')).toEqual(['fail'])
  })
  test('more than two uncertainties off asks for a reason', () => {
    const u = Math.hypot(8.3e3 * 0.01, 7850 * 0.04)
    const [found] = checksOf(reading('8.3 t'), 'mass.weighed.normalised')
    expect(found?.demand.value).toBeCloseTo(450 / u, 9)
    expect(verdictsOf(reading('8.6 t'), 'mass.weighed.normalised')).toEqual(['fail'])
  })
  test('says beside it that what is unexplained stays in, and that the piece is weighed again', () => {
    expect(checksOf(reading('8 t'), 'mass.weighed.band')[0]?.cautions.join(' ')).toContain(
      'weighed again before it returns',
    )
  })
  test('of a piece that others were taken out of names them', () => {
    const parts = { a: block(), b: block({ solids: [cubeAt(3, 0, 0)] }) }
    const pieces = {
      whole: { name: 'Head with drive', parts: ['a', 'b'], retained: '0 kg' },
      inner: { name: 'Bearing', parts: ['b'], retained: '0 kg' },
    }
    const weighings = { first: { piece: 'whole', measured: '16 t', accuracy: 0.01 } }
    expect(checksOf({ parts, pieces, weighings }, 'mass.weighed.band')[0]?.cautions.join(' ')).toContain('Bearing')
  })
  test('of a piece not yet weighed there is none', () => expect(checksOf(onePiece(), 'mass.weighed.band')).toEqual([]))
})

describe('a change in force', () => {
  const change = (more: Raw) => ({
    parts: { block: block() },
    changes: { c: { kind: 'stiffen', what: 'Plate', status: 'approved', parts: ['block'], ...more } },
  })
  const plate = { mass: '100 kg', basis: 'calculated', uncertainty: 0.05, at: ['0 m', '0 m', '0.6 m'] }
  test('on its part passes; without mass or place it is open', () => {
    expect(verdictsOf(change({ added: plate }), 'mass.change.entered')).toEqual(['pass'])
    const { at: _, ...placeless } = plate
    const [found] = checksOf(change({ added: placeless }), 'mass.change.entered')
    expect(found?.verdict).toBe('open')
    expect(found?.reasons).toContain('/changes/c/added/at/0 is not given')
    expect(verdictsOf(change({}), 'mass.change.entered')).toEqual(['open'])
  })
  test('a replacement needs the new mass as a share of the old, and no place', () => {
    expect(verdictsOf(change({ kind: 'replace', factor: 1.1 }), 'mass.change.entered')).toEqual(['pass'])
    expect(verdictsOf(change({ kind: 'replace' }), 'mass.change.entered')).toEqual(['open'])
  })
  test('more cannot be taken away than there is', () => {
    const away = { ...plate, mass: '-9 t' }
    expect(checksOf(change({ added: away }), 'mass.change.entered')[0]?.reasons).toEqual([
      'more is taken away than block has',
    ])
  })
  test('a proposal is not looked at', () => {
    expect(checksOf(change({ status: 'proposed' }), 'mass.change.entered')).toEqual([])
  })
})

describe('what is retained', () => {
  test('must be typed, zero as well', () => {
    expect(verdictsOf(onePiece({ retained: undefined }), 'mass.piece.retained')).toEqual(['open'])
    expect(verdictsOf(onePiece({ retained: '0 kg' }), 'mass.piece.retained')).toEqual(['pass'])
  })
  test('cannot be more than the piece has room for', () => {
    const hollow = { parts: { block: block({ solids: [{ ...cubeAt(0, 0, 0), fill: 0.4 }], mass: known('3140 kg') }) } }
    expect(checksOf(onePiece({}, hollow), 'mass.piece.retained')[0]?.capacity.value).toBeCloseTo(0.6 * 2300, 6)
    expect(verdictsOf(onePiece({ retained: '1.3 t' }, hollow), 'mass.piece.retained')).toEqual(['near'])
    expect(verdictsOf(onePiece({ retained: '1.4 t' }, hollow), 'mass.piece.retained')).toEqual(['fail'])
  })
})

/** A project in which every check of this stage passes, and everything it may do without is there. */
const complete = projectOf({
  ...onePiece({ retained: '0 kg' }),
  parts: { block: block({ group: 'drive' }) },
  machine: {
    pose: {
      ...POSE,
      survey: { tail: { machine: ['0 m', '1 m', '0 m'], site: ['1 m', '0 m', '-20 m'], accuracy: '2 mm' } },
    },
    groupTotals: { drive: { mass: '7850 kg', uncertainty: 0.03 } },
  },
  changes: {
    plate: {
      kind: 'stiffen',
      what: 'Plate',
      status: 'approved',
      parts: ['block'],
      added: { mass: '100 kg', basis: 'calculated', uncertainty: 0.04, at: ['0 m', '0 m', '0.6 m'] },
    },
  },
  weighings: { first: { piece: 'lift', measured: '7850 kg', accuracy: 0.01 } },
})

describe('an input removed opens what rests on it, and lets nothing pass that rested on it', () => {
  const cases: [string, readonly string[]][] = [
    [
      '/parts/block/mass/uncertainty',
      ['part.solids', 'part.record', 'group.total', 'set.uncertainty', 'weighed.normalised'],
    ],
    ['/parts/block/mass/date', ['part.record']],
    ['/parts/block/mass/source', ['part.record']],
    ['/settings/coverage', ['part.solids', 'group.total', 'weighed.normalised']],
    ['/settings/weightBand', ['weighed.band']],
    ['/settings/surveyTolerance', ['pose.survey']],
    ['/settings/allowance/calculated', ['set.uncertainty']],
    ['/changes/plate/added/at', ['change.entered']],
    ['/changes/plate/added/uncertainty', ['set.uncertainty', 'change.entered']],
    ['/pieces/lift/retained', ['weighed.band', 'weighed.normalised', 'piece.retained']],
  ]
  test('with nothing removed nothing is open', () => {
    const memory = freshMemory()
    const { checks } = mass(modelOf(complete, memory), memory)
    expect(checks.filter((c) => c.verdict !== 'pass').map((c) => c.id)).toEqual([])
  })
  test.each(cases)('%s', (path, kinds) => {
    const patched = applyPatch(complete, [{ op: 'remove', path }])
    if ('problems' in patched) throw new Error(JSON.stringify(patched.problems))
    const memory = freshMemory()
    const { checks } = mass(modelOf(patched.document, memory), memory)
    const open = new Set(checks.filter((c) => c.verdict === 'open').map((c) => c.kind))
    expect([...open].sort()).toEqual(kinds.map((k) => `mass.${k}`).sort())
    for (const c of checks.filter((c) => c.verdict === 'open')) expect(c.reasons.length).toBeGreaterThan(0)
  })
})

describe('readings of the load cells', () => {
  test('of two hooks add up, less the rigging, and their mean stands for the mass', () => {
    const sections = weighedByCells([
      [true, '4.46 t', '4.5 t'],
      [true, '4.54 t', '4.5 t'],
    ])
    expect(checksOf(sections, 'mass.weighed.cells')[0]?.demand.value).toBeCloseTo(0, 6)
  })
  test('before the load is free count for the ceiling and not for the mean', () => {
    const sections = weighedByCells([
      [false, '4.9 t', '4.9 t'],
      [true, '4.5 t', '4.5 t'],
    ])
    expect(verdictsOf(sections, 'mass.weighed.cells')).toEqual(['pass'])
    expect(verdictsOf(sections, 'mass.weighed.ceiling')).toEqual(['fail'])
  })
  test('of which none is free leave the mass of the weighing open', () => {
    const [found] = checksOf(weighedByCells([[false, '4.5 t', '4.5 t']]), 'mass.weighed.cells')
    expect(found?.verdict).toBe('open')
    expect(found?.reasons).toEqual(['/weighings/first/cells/readings/- is not given'])
  })
})
