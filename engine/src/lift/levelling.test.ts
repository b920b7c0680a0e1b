import { expect, test } from 'vitest'
import type { LevelProposal } from './levelling.ts'
import { type Document, outcome } from './small.fixture.ts'

const proposals = (change: (d: Document) => void): readonly LevelProposal[] => outcome('out', change).levelling
const of = (all: readonly LevelProposal[], kind: LevelProposal['kind']): LevelProposal | undefined =>
  all.find((p) => p.kind === kind)

/** The block with its mass off the middle of its points. */
const lopsided = (d: Document): void => {
  d.parts.block.solids[0].centre[0] = '0.5 m'
  d.settings.tilt = '2 deg'
}

test('a piece that hangs level has nothing proposed', () => {
  expect(proposals(() => {})).toEqual([])
})

test('legs of the lengths proposed bring the hook plumb over the centre of gravity', () => {
  const made = of(proposals(lopsided), 'lengths of the legs') as LevelProposal
  expect(made.tilt.value).toBeLessThan(1e-3)
  // the centre of gravity lies toward points a and d: their legs are the shorter ones
  const [a, b, c, d] = made.lengths.map((l) => l.needed) as [number, number, number, number]
  expect(a).toBeLessThan(b)
  expect(d).toBeLessThan(c)
  expect(a).toBeCloseTo(d, 6)
})

test('slings from stock are proposed as a change of the file, and the file so changed hangs as said', () => {
  const withStock = (d: Document): void => {
    lopsided(d)
    d.stock.short = { ...d.stock.sling, length: '3.7 m' }
  }
  const made = of(proposals(withStock), 'slings from stock') as LevelProposal
  expect(made.patch.length).toBeGreaterThan(0)
  const after = outcome('out', (d) => {
    withStock(d)
    for (const op of made.patch) {
      const leg = /legs\/(\d)\/item$/.exec(op.path)?.[1]
      d.lifts.out.rigging.legs[Number(leg)].item = 'value' in op ? op.value : ''
    }
  })
  expect(after.tilt.value).toBeCloseTo(made.tilt.value as number, 6)
  expect(after.tilt.value).toBeLessThan(outcome('out', withStock).tilt.value as number)
})

test('no more slings are proposed than are on hand', () => {
  const made = of(
    proposals((d) => {
      lopsided(d)
      d.stock.short = { ...d.stock.sling, length: '3.7 m', quantity: 1 }
    }),
    'slings from stock',
  )
  const used = made?.patch.filter((op) => 'value' in op && op.value === 'short').length ?? 0
  expect(used).toBeLessThanOrEqual(1)
})

test('a spreader is proposed to hang off its middle, over the centre of gravity', () => {
  const under = (d: Document): void => {
    lopsided(d)
    d.gear = { bar: { name: 'Bar', kind: 'spreader', mass: '0.5 t', rated: '40 t' } }
    const rigging = d.lifts.out.rigging
    rigging.nodes = {
      front: { gear: 'bar', offset: ['1.2 m', '0 m', '-0.5 m'] },
      rear: { gear: 'bar', offset: ['-1.2 m', '0 m', '-0.5 m'] },
    }
    for (const leg of rigging.legs) leg.from = leg.to === 'a' || leg.to === 'd' ? 'front' : 'rear'
  }
  const made = of(proposals(under), 'offset of the hook') as LevelProposal
  expect(made.tilt.value).toBeLessThan(outcome('out', under).tilt.value as number)
  const after = outcome('out', (d) => {
    under(d)
    for (const op of made.patch) {
      const node = /nodes\/(\w+)\/offset$/.exec(op.path)?.[1] as string
      d.lifts.out.rigging.nodes[node].offset = 'value' in op ? op.value : ''
    }
  })
  expect(after.tilt.value).toBeCloseTo(made.tilt.value as number, 3)
})
