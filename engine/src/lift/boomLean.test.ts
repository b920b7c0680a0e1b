import { describe, expect, test } from 'vitest'
import { mass } from '../mass/index.ts'
import { strip } from '../strip/index.ts'
import type { Check } from '../working/check.ts'
import { freshMemory } from '../working/memory.ts'
import { pieceHull } from './bodies.ts'
import { boomWaysOf } from './boomWay.ts'
import type { Change } from './fixture.ts'
import { withBoom } from './overhead.fixture.ts'
import { pickOf } from './pick.ts'
import { type Document, modelOf, type outcome as one, outcome, smallProject } from './small.fixture.ts'

type Outcome = ReturnType<typeof one>

/** Least gap of the piece to the boom of a crane, as its check tells it. */
function pieceGap({ checks }: Outcome, of = ''): number {
  const check = checks.find(({ id }) => id.startsWith('lift.path.boom/') && id.endsWith(`out${of}`)) as Check
  return Number(check.assumptions.find((a) => a.startsWith('the piece'))?.match(/boom: (-?[\d.]+) m/)?.[1])
}

const DEGREE = Math.PI / 180

describe('a piece on one hook', () => {
  /** A plate of 18 m towards the crane at (20, 0), on top of the block. */
  const plate = (shift: string): Outcome =>
    outcome(
      'out',
      withBoom((d) => {
        d.lifts.out.landing = ['0 m', '0.5 m', '0 m']
        d.systems.tower.standings = [['20 m', '0 m']]
        d.settings.cogShift = shift
        const size = ['18 m', '1 m', '0.1 m']
        d.parts.block.solids.push({ shape: 'box', centre: ['0 m', '0 m', '0.95 m'], size })
      }),
    )

  // cos θ = 19/30; the edge comes up to z = 9 where the piece is level, 9 m towards the crane from where it hangs and 0.876 m over
  // its centre of gravity (1.8 m³ of plate at 0.95 m on 12 m³ of block)
  test('leans towards the boom by its worst tilt: its edge rises by that angle about the centre of gravity', () => {
    const out = plate('100 mm')
    const t = out.worstTilt.value as number
    expect(t).toBeGreaterThan(0.5 * DEGREE)
    const theta = Math.acos(19 / 30)
    const [along, up] = [9 * Math.cos(t) - 0.876 * Math.sin(t), 9 * Math.sin(t) + 0.876 * Math.cos(t)]
    const gap = (20 - along - 1) * Math.sin(theta) - (9 - 0.876 + up - 2) * Math.cos(theta) - 0.6
    expect(Math.abs(pieceGap(out) - gap)).toBeLessThan(0.02)
  })

  test('comes nearer the less is known of where its centre of gravity is', () => {
    const gaps = ['0 mm', '50 mm', '150 mm'].map((shift) => pieceGap(plate(shift)))
    expect(gaps).toEqual([...gaps].sort((a, b) => b - a))
    expect(new Set(gaps).size).toBe(3)
  })

  test('is open while its worst tilt is, for nobody says how far out its slings may be', () => {
    const [check] = outcome(
      'out',
      withBoom((d) => delete d.stock.sling.tolerance),
    ).checks.filter(({ kind }) => kind === 'lift.path.boom')
    expect(check?.verdict).toBe('open')
    expect(check?.reasons).toContain('/stock/sling/tolerance is not given')
  })

  // upright at a steep boom: a mast of 6 m on the block goes towards it where the block's side to the boom is low
  test('tall under a steep boom comes nearest with its top towards it', () => {
    const { checks } = outcome(
      'out',
      withBoom((d) => {
        d.lifts.out.landing = ['0 m', '0.5 m', '0 m']
        d.systems.tower.standings = [['9 m', '0 m']]
        d.settings.cogShift = '100 mm'
        const size = ['0.2 m', '0.2 m', '6 m']
        d.parts.block.solids.push({ shape: 'box', centre: ['1.4 m', '0 m', '4 m'], size })
      }),
    )
    const check = checks.find(({ kind }) => kind === 'lift.path.boom') as Check
    expect(check.assumptions.find((a) => a.startsWith('the piece'))).toMatch(/with its top towards the boom/)
  })
})

/** The block with a plate of 10 m along x on it, shared by cranes at (24, 8) and (−24, 8), out of level by as much as the project allows. */
const shared = (tilt: string, change: Change = () => {}): Outcome =>
  outcome(
    'out',
    withBoom((d: Document) => {
      const legs = (points: string[]) => ({ legs: points.map((to) => ({ item: 'sling', to })) })
      d.settings.tilt = tilt
      d.systems.tower.standings = [['24 m', '8 m']]
      d.lifts.out.rigging = legs(['a', 'd'])
      d.systems.second = { ...structuredClone(d.systems.tower), name: 'Second crane', standings: [['-24 m', '8 m']] }
      d.lifts.out.tail = { system: 'second', hook: 'tail', rigging: legs(['b', 'c']) }
      d.systems.second.hooks.tail.blockSize = { width: '0.8 m', height: '1.5 m' }
      const size = ['10 m', '1 m', '0.1 m']
      d.parts.block.solids.push({ shape: 'box', centre: ['0 m', '0 m', '0.95 m'], size })
      change(d)
    }),
  )

describe('a piece that two cranes share', () => {
  test('comes nearer to both booms the more either hook may be higher than the other', () => {
    const all = ['0.5 deg', '2 deg', '4 deg'].map((tilt) => shared(tilt))
    for (const of of ['', '/second']) {
      const gaps = all.map((out) => pieceGap(out, of))
      expect(gaps, of).toEqual([...gaps].sort((a, b) => b - a))
      expect(gaps[2], of).toBeLessThan(gaps[0] as number)
      // no farther than its edge, 5 m out and 1 m over its centre of gravity, goes round by what it leans more
      expect((gaps[0] as number) - (gaps[2] as number), of).toBeLessThan(Math.hypot(5, 1) * 3.6 * DEGREE)
    }
  })

  test('comes nearer to what is fixed in the shaft as well', () => {
    // without its plate, as far as the duct
    const gap = (tilt: string): number => shared(tilt, (d) => d.parts.block.solids.pop()).clearance?.gap.value as number
    expect(gap('4 deg')).toBeLessThan(gap('0.5 deg') - 0.005)
  })
})

/** Cranes at (0, 38) and (0, 2) turn the block between them over its bay, about x = 0; a bar on it sticks out towards both. */
const turning =
  (change: Change): Change =>
  (d) => {
    const { turn } = d.lifts
    const over = withBoom((doc) => {
      doc.lifts.turn = turn
      doc.lifts.turn.standing = 0
      doc.systems.tower.standings = [['0 m', '38 m']]
      doc.systems.tower.hooks.main.highest = '24 m'
      doc.systems.second = {
        ...structuredClone(doc.systems.tower),
        name: 'Second crane',
        standings: [['0 m', '2 m']],
      }
      doc.systems.second.hooks.tail.blockSize = { width: '0.8 m', height: '1.5 m' }
      doc.lifts.turn.tail.system = 'second'
      doc.steps.S1.moves.push({ by: ['0 m', '20 m', '0 m'] })
      const moves = [{ turn: '90 deg', axis: 'y', about: ['0 m', '20 m', '8 m'] }]
      doc.steps.S2 = { piece: 'block', moves, lift: 'turn' }
      doc.order.push('S2')
      doc.parts.block.solids.push({ shape: 'box', centre: ['0 m', '0 m', '0.9 m'], size: ['0.2 m', '9 m', '0.2 m'] })
      change(doc)
    })
    over(d)
  }
const turned = (change: Change = () => {}): Outcome => outcome('turn', turning(change))
const turnGap = (change?: Change, of = ''): number => {
  const check = turned(change).checks.find(({ id }) => id === `lift.path.boom/turn${of}`) as Check
  return Number(check.assumptions.find((a) => a.startsWith('the piece'))?.match(/boom: (-?[\d.]+) m/)?.[1])
}

describe('a piece that two cranes turn', () => {
  test('rolls under its hooks by the box of its centre of gravity, towards the boom as well', () => {
    const gaps = ['0 mm', '60 mm', '200 mm'].map((shift) =>
      turnGap((d) => {
        d.settings.cogShift = shift
      }),
    )
    expect(gaps).toEqual([...gaps].sort((a, b) => b - a))
    expect(gaps[2]).toBeLessThan(gaps[0] as number)
  })

  test('turns on beyond its ends as far as an error of the heights lets it', () => {
    const gap = (error: string) =>
      turnGap((d) => {
        d.lifts.turn.turn.heightError = error
        // a bar 4 m to one side and low, which face down still rises as the block is turned on, and a lump as heavy to the other
        d.parts.block.solids.push(
          { shape: 'box', centre: ['-4 m', '0 m', '-0.9 m'], size: ['0.2 m', '9 m', '0.2 m'] },
          { shape: 'box', centre: ['4 m', '0 m', '-0.9 m'], size: ['0.6 m', '1 m', '0.6 m'] },
        )
      }, '/second')
    expect(gap('300 mm')).toBeLessThan(gap('0 mm'))
  })

  test('has its heads where its lines lean to with the centre of gravity at a corner of its box, where they cannot hang plumb', () => {
    const heads = (apart: string | undefined, shift: string) =>
      headsOf((d) => {
        d.settings.cogShift = shift
        if (apart !== undefined) d.lifts.turn.turn.hooksApart = apart
      })
    // plumb lines stay plumb wherever the weight is
    expect(heads(undefined, '100 mm')).toBe(heads(undefined, '0 mm'))
    expect(heads('5 m', '100 mm')).toBeGreaterThan(heads('5 m', '0 mm'))
  })
})

/** How many places the head of the first crane takes up in the turn. */
function headsOf(change: Change): number {
  const memory = freshMemory()
  const model = modelOf(smallProject(turning(change)), memory)
  const masses = mass(model, memory)
  const order = strip(model, masses, memory)
  const hull = pieceHull(model, masses, 'block', memory)
  const [way] = boomWaysOf(pickOf(model, masses, order, 'turn'), hull, memory)
  return new Set(way?.moments.map(({ hook }) => hook[0].toFixed(4))).size
}
