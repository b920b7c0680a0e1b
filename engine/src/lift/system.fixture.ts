import { type Change, kind } from './fixture.ts'
import type { Document } from './small.fixture.ts'
import { chartRange, strandUse, unitAnchors, unitLost, unitPace, unitUse, winchPull } from './systemKinds.ts'

/** The small project's tower changed to a crane with charts for two booms, 12 m from the load. */
export const withCharts: Change = (d) => {
  const { tower } = d.systems
  tower.kind = 'crawler crane'
  tower.setUp = { boom: '30 m', counterweight: '60 t' }
  for (const hook of Object.values(tower.hooks) as Document[]) {
    delete hook.rated
    hook.charts = {
      short: { boom: '30 m', counterweight: '60 t', rows: rows(10, 60, 14, 45) },
      long: { boom: '42 m', counterweight: '60 t', rows: rows(10, 50, 20, 30) },
    }
  }
  for (const lift of Object.values(d.lifts) as Document[]) lift.radius = '12 m'
  d.lifts.turn.tail.radius = '12 m'
}

const rows = (...pairs: number[]) =>
  pairs.flatMap((r, i) => (i % 2 === 0 ? [{ radius: `${r} m`, rated: `${pairs[i + 1]} t` }] : []))

const strand = {
  kind: 'strand unit',
  at: { A: ['1 m', '1 m'], B: ['-1 m', '1 m'], C: ['-1 m', '-1 m'], D: ['1 m', '-1 m'] },
  rated: '20 t',
  stiffness: '80 MN',
  difference: '4 mm',
  anchors: 2,
  strands: { fitted: 3, rated: '10 t' },
  stroke: '0.4 m',
  strokeSpeed: '40 m/h',
  regrip: '20 s',
}

/** The small project's hooks on four strand units each. */
export const onStrands: Change = (d) => {
  for (const hook of Object.values(d.systems.tower.hooks) as Document[]) {
    hook.head = '20 m'
    hook.units = structuredClone(strand)
  }
}

/** The same on four winches. */
export const onWinches: Change = (d) => {
  onStrands(d)
  for (const hook of Object.values(d.systems.tower.hooks) as Document[]) {
    hook.units.kind = 'winch'
    hook.units.reeving = { parts: 4, loss: 1.04, pull: '60 kN', barrel: '600 mm', rope: '20 mm', layer: 3 }
  }
}

const then =
  (first: Change, next: (units: Document, d: Document) => void): Change =>
  (d) => {
    first(d)
    next(d.systems.tower.hooks.main.units, d)
  }

const strandKind = (of: { id: string }, fail: (u: Document) => void, open: (u: Document) => void) =>
  kind(of, then(onStrands, fail), then(onStrands, open), onStrands)

export const systemFixtures = {
  ...kind(
    chartRange,
    then(withCharts, (_, d) => {
      d.lifts.out.radius = '16 m'
    }),
    then(withCharts, (_, d) => {
      delete d.systems.tower.setUp.boom
    }),
    withCharts,
  ),
  ...strandKind(
    unitUse,
    (u) => {
      u.rated = '6 t'
    },
    (u) => {
      delete u.difference
    },
  ),
  ...kind(
    unitLost,
    then(onStrands, (u) => {
      delete u.at.C
      delete u.at.D
      u.rated = '15 t'
    }),
    then(onStrands, (_, d) => {
      delete d.systems.tower.hooks.main.block
    }),
    onStrands,
  ),
  ...strandKind(
    unitAnchors,
    (u) => {
      u.anchors = 1
    },
    (u) => {
      delete u.anchors
    },
  ),
  ...strandKind(
    strandUse,
    (u) => {
      u.strands.fitted = 1
    },
    (u) => {
      delete u.strands
    },
  ),
  ...strandKind(
    unitPace,
    (u) => {
      u.regrip = '5 min'
    },
    (u) => {
      delete u.regrip
    },
  ),
  ...kind(
    winchPull,
    then(onWinches, (u) => {
      u.reeving.pull = '9 kN'
    }),
    then(onWinches, (u) => {
      delete u.reeving
    }),
    onWinches,
  ),
}
