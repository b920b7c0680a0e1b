import { describe, expect, test } from 'vitest'
import { missingUnder, restsOn } from '../working/answer.ts'
import { block, cubeAt, known, massOf, onePiece, SETTINGS } from './mass.fixture.ts'

type Raw = Readonly<Record<string, unknown>>

/** A piece of a shell, 100 t calculated, and a bearing, 20 t from the catalogue; 2 t of muck in it. */
const drive = (sections: Raw = {}, piece: Raw = {}): Raw => ({
  parts: {
    shell: block({ solids: [cubeAt(0, 0, 0, 3)], mass: known('100 t') }),
    bearing: block({ solids: [cubeAt(4, 0, 0, 2)], mass: known('20 t', { basis: 'catalogue', uncertainty: 0.02 }) }),
  },
  pieces: { drive: { name: 'Drive', parts: ['shell', 'bearing'], retained: '2 t', ...piece } },
  lifts: LIFTS,
  ...sections,
})
const LIFTS: Raw = {
  out: { piece: 'drive', kind: 'out', system: 'tower', hook: 'main' },
  back: { piece: 'drive', kind: 'back', as: 'returned', system: 'tower', hook: 'main' },
}
const SYSTEMS: Raw = { tower: { name: 'Tower', kind: 'lift tower', hooks: { main: { name: 'Main hook' } } } }

const change = (more: Raw): Raw => ({
  kind: 'replace',
  what: 'Bearing',
  status: 'approved',
  parts: ['bearing'],
  ...more,
})
const NEW_BEARING: Raw = { bearing: change({ factor: 1.1 }) }
const GUSSET: Raw = {
  gusset: {
    kind: 'stiffen',
    what: 'Gusset',
    status: 'approved',
    parts: ['shell'],
    added: { mass: '3 t', basis: 'calculated', uncertainty: 0.05, at: ['0 m', '0 m', '0.5 m'] },
  },
}
const weighed = (measured: string, more: Raw = {}): Raw => ({
  first: { piece: 'drive', measured, accuracy: 0.01, lift: 'out', date: '2032-01-01', ...more },
})
const pieceOf = (sections: Raw, piece: Raw = {}) => {
  const { pieces } = massOf({ systems: SYSTEMS, ...drive(sections, piece) })
  if (pieces.drive === undefined) throw new Error('no piece')
  return pieces.drive
}

describe('as found', () => {
  test('the design mass is the parts, what is retained, and the allowance of each basis', () => {
    const { found } = pieceOf({})
    expect(found.net.value).toBe(120e3)
    expect(found.expected.value).toBe(122e3)
    expect(found.design.value).toBeCloseTo(120e3 + 2e3 + 5e3 + 600, 6)
    expect(found.lower.value).toBeCloseTo(120e3 - Math.hypot(4e3, 400), 6)
  })

  test('nothing is said to be weighed before it was', () => expect(pieceOf({}).weighed).toBeUndefined())

  test('retained matter that nobody has stated leaves the design mass open', () => {
    const { found } = pieceOf({}, { retained: undefined })
    expect(found.design.value).toBeUndefined()
    expect(missingUnder(found.design)).toEqual(['/pieces/drive/retained'])
    expect(found.lower.value).toBeDefined()
  })
})

describe('as weighed', () => {
  const { weighed: set } = pieceOf({ weighings: weighed('125 t') })

  test('the reading holds the muck: the net mass is without it', () => expect(set?.net.value).toBe(123e3))
  test('the allowance is that of a weighed mass, on all that hung', () => {
    expect(set?.allowance.value).toBeCloseTo(0.015 * 125e3, 6)
    expect(set?.design.value).toBeCloseTo(125e3 * 1.015, 6)
  })
  test('its uncertainty is that of the cells', () => expect(set?.uncertainty.value).toBeCloseTo(1250, 6))
  test('what the parts and the muck do not account for is unexplained', () => {
    expect(set?.unexplained?.value).toBeCloseTo(3e3, 6)
  })
  test('the latest record counts', () => {
    const weighings = {
      ...weighed('125 t', { date: '2032-03-01' }),
      second: { piece: 'drive', measured: '130 t', accuracy: 0.01, date: '2032-02-01' },
    }
    expect(pieceOf({ weighings }).weighed?.net.value).toBe(123e3)
  })
  test('it stays known when nobody has stated what is retained', () => {
    const piece = pieceOf({ weighings: weighed('125 t') }, { retained: undefined })
    expect(piece.weighed?.design.value).toBeCloseTo(125e3 * 1.015, 6)
    expect(piece.weighed?.net.value).toBeUndefined()
  })
})

describe('as it goes back, not weighed', () => {
  test('what is replaced by a heavier one weighs more, what is added is added, at their places', () => {
    const { found, returned } = pieceOf({ changes: { ...NEW_BEARING, ...GUSSET } })
    expect(returned.net.value).toBeCloseTo(100e3 + 22e3 + 3e3, 6)
    expect(returned.cogMachine[0]).toBeCloseTo((4 * 22) / 125, 12)
    expect(returned.cogMachine[2]).toBeCloseTo((0.5 * 3) / 125, 12)
    expect(found.net.value).toBe(120e3)
  })

  test('a proposal and a rejected change weigh nothing', () => {
    for (const status of ['proposed', 'rejected']) {
      const changes = { bearing: change({ factor: 1.1, status }) }
      expect(pieceOf({ changes }).returned.net.value).toBe(120e3)
    }
  })

  test('a change that is done weighs as one that is approved', () => {
    expect(pieceOf({ changes: { bearing: change({ factor: 1.1, status: 'done' }) } }).returned.net.value).toBeCloseTo(
      122e3,
      6,
    )
  })

  test('a replacement whose mass nobody has given leaves the returned mass open, naming it', () => {
    const { returned } = pieceOf({ changes: { bearing: change({}) } })
    expect(returned.net.value).toBeUndefined()
    expect(missingUnder(returned.design)).toEqual(['/changes/bearing/factor'])
  })

  test('a scrapped part does not come back', () => {
    const parts = {
      shell: block({ solids: [cubeAt(0, 0, 0, 3)], mass: known('100 t') }),
      bearing: block({ solids: [cubeAt(4, 0, 0, 2)], mass: known('20 t'), fate: 'scrapped' }),
    }
    expect(pieceOf({ parts }).returned.net.value).toBe(100e3)
  })

  test('of a piece that is scrapped as a whole nothing comes back, however it was weighed', () => {
    const parts = { shell: block({ solids: [cubeAt(0, 0, 0, 3)], mass: known('100 t'), fate: 'scrapped' }) }
    const pieces = { drive: { name: 'Drive', parts: ['shell'], retained: '0 kg' } }
    const { returned } = pieceOf({ parts, pieces, weighings: weighed('104 t') })
    expect(returned.design.value).toBe(0)
    expect(returned.lower.value).toBe(0)
  })

  test('muck that is said to stay behind does not go back', () => {
    expect(pieceOf({}, { retainedBack: '0 kg' }).returned.expected.value).toBe(120e3)
    expect(pieceOf({}).returned.expected.value).toBe(122e3)
  })
})

describe('as it goes back after weighing', () => {
  const sections = { weighings: weighed('125 t'), changes: { ...NEW_BEARING, ...GUSSET } }
  const { returned } = pieceOf(sections)

  test('it carries the weighed mass, less what was removed, plus what is new', () => {
    expect(returned.expected.value).toBeCloseTo(125e3 - 20e3 + 22e3 + 3e3, 6)
  })

  test('the weighed part has the weighed allowance, what is new that of its own basis', () => {
    expect(returned.contingency.value).toBeCloseTo(0.015 * 105e3 + 0.03 * 22e3 + 0.05 * 3e3, 6)
    expect(returned.design.value).toBeCloseTo(130e3 + 1575 + 660 + 150, 6)
  })

  test('the difference that nobody has explained stays in: parts, retained and allowance give the design mass', () => {
    expect(returned.unexplained?.value).toBeCloseTo(3e3, 6)
    const sum = [returned.net, returned.retained, returned.allowance].reduce((s, a) => s + (a.value as number), 0)
    expect(sum).toBeCloseTo(returned.design.value as number, 6)
  })

  test('a piece weighed lighter than computed goes back lighter', () => {
    const light = pieceOf({ weighings: weighed('119 t') }).returned
    expect(light.expected.value).toBeCloseTo(119e3, 6)
    expect(light.unexplained?.value).toBeCloseTo(-3e3, 6)
  })

  test('explaining the difference, as muck, leaves what is expected as it is', () => {
    const explained = pieceOf(sections, { retained: '5 t' }).returned
    expect(explained.expected.value).toBeCloseTo(130e3, 6)
    expect(explained.unexplained?.value).toBeCloseTo(0, 6)
  })

  test('muck cleaned off is taken off', () => {
    expect(pieceOf(sections, { retainedBack: '500 kg' }).returned.expected.value).toBeCloseTo(130e3 - 1500, 6)
  })

  test('the uncertainties of the weighing, of what was removed and of what is new combine', () => {
    expect(returned.uncertaintyIndependent.value).toBeCloseTo(Math.hypot(1250, 400, Math.hypot(440, 150)), 6)
    expect(returned.uncertaintyCorrelated.value).toBeCloseTo(1250 + 400 + 440 + 150, 6)
  })

  test('it rests on the record, the changes and the old mass', () => {
    expect(restsOn(returned.design)).toEqual(
      expect.arrayContaining([
        '/weighings/first/measured',
        '/changes/bearing/factor',
        '/changes/gusset/added/mass',
        '/parts/bearing/mass/value',
        '/settings/allowance/weighed',
      ]),
    )
  })

  test('weighed again as it goes back, that weighing stands', () => {
    const weighings = {
      ...weighed('125 t'),
      again: { piece: 'drive', measured: '131 t', accuracy: 0.005, lift: 'back', date: '2032-09-01' },
    }
    const piece = pieceOf({ ...sections, weighings })
    expect(piece.returned.design.value).toBeCloseTo(131e3 * 1.015, 6)
    expect(piece.returned.unexplained?.value).toBeCloseTo(131e3 - 127e3, 6)
    expect(piece.weighed?.net.value).toBe(123e3)
    expect(piece.comparisons.map((c) => [c.of, c.expected.value])).toEqual([
      ['out', 122e3],
      ['back', 130e3],
    ])
  })
})

describe('mass added to several like parts', () => {
  const rim = (at: string[]): Raw => ({
    parts: {
      rim: block({
        solids: [
          { shape: 'radial box', along: ['0 m', '1 m'], radius: '5 m', radial: '1 m', across: '1 m', angle: '0 deg' },
        ],
        mass: known('10 t'),
        pattern: { kind: 'around the axis', count: 4, step: '90 deg' },
      }),
    },
    changes: {
      wear: {
        kind: 'add',
        what: 'Wear plates',
        status: 'approved',
        parts: ['rim'],
        added: { mass: '4 t', basis: 'calculated', uncertainty: 0.05, at },
      },
    },
    pieces: {
      all: { name: 'All', parts: ['rim'], retained: '0 kg' },
      half: { name: 'Half', parts: ['rim-01', 'rim-02'], retained: '0 kg' },
    },
  })
  const { pieces } = massOf(rim(['0.5 m', '0 m', '0 m']))

  test('is the total over them, spread round their common centre', () => {
    expect(pieces.all?.returned.net.value).toBe(44e3)
    expect(pieces.all?.returned.cogMachine).toEqual([0.5, expect.closeTo(0, 9), expect.closeTo(0, 9)])
    const ring = pieces.all?.found.inertia[0][0] as number
    const own = (pieces.all?.returned.inertia[0][0] as number) - ring
    expect(own).toBeCloseTo(4e3 * 25, 4)
  })

  test('is shared by those of them that a piece holds, each at its own', () => {
    expect(pieces.half?.returned.net.value).toBe(22e3)
    expect(pieces.half?.returned.cogMachine[1]).toBeCloseTo(2.5, 9)
  })
})

test('a piece that no change and no weighing touches goes back as it was found', () => {
  const piece = massOf(onePiece()).pieces.lift
  expect(piece?.returned.design.value).toBe(piece?.found.design.value)
})

test('one allowance is one allowance: twice the share, twice the allowance, and the expected mass unmoved', () => {
  const twice = { ...SETTINGS, allowance: { calculated: 0.1 } }
  const [one, two] = [
    massOf(onePiece()).pieces.lift?.found,
    massOf(onePiece({}, { settings: twice })).pieces.lift?.found,
  ]
  expect(two?.allowance.value).toBeCloseTo(2 * (one?.allowance.value as number), 9)
  expect(two?.expected.value).toBe(one?.expected.value)
})
