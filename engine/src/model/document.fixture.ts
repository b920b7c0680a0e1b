import { freshMemory } from '../working/memory.ts'
import { applyPatch, type Operation } from '../working/patch.ts'
import type { Problem } from '../working/problem.ts'
import { model } from './model.ts'

/** Two rings bolted together, hung from a crane over a shaft: one of each thing that a reader may get wrong. */
export function smallDocument(...changes: Operation[]): unknown {
  const patched = applyPatch(SMALL, changes)
  if ('problems' in patched) throw new Error(`the test's own change does not fit: ${JSON.stringify(patched.problems)}`)
  return patched.document
}

/** Problems of the small document after these changes. */
export const problemsAfter = (...changes: Operation[]): readonly Problem[] =>
  model(smallDocument(...changes), freshMemory()).problems

export const add = (path: string, value: unknown): Operation => ({ op: 'add', path, value })
export const replace = (path: string, value: unknown): Operation => ({ op: 'replace', path, value })
export const remove = (path: string): Operation => ({ op: 'remove', path })

const ring = (along: [string, string]) => ({
  shape: 'ring sector',
  inner: '1 m',
  outer: '1.2 m',
  along,
  angles: ['0 deg', '360 deg'],
})

const SMALL = {
  schemaVersion: 1,
  about: { title: 'Two rings' },
  materials: { steel: { density: '7850 kg/m3' } },
  parts: {
    'ring-front': { name: 'Front ring', material: 'steel', solids: [ring(['0 m', '1 m'])] },
    'ring-rear': { name: 'Rear ring', material: 'steel', solids: [ring(['-1 m', '0 m'])] },
    lug: {
      name: 'Lug',
      material: 'steel',
      pattern: { kind: 'around the axis', count: 4, step: '90 deg' },
      solids: [
        {
          shape: 'radial box',
          along: ['0 m', '0.2 m'],
          radius: '1.3 m',
          radial: '0.2 m',
          across: '0.1 m',
          angle: '0 deg',
        },
      ],
    },
  },
  joints: {
    flange: {
      between: ['ring-front', 'ring-rear'],
      kind: 'bolted',
      access: 'inside',
      bolts: { thread: 'M30', grade: '10.9', count: 12, timeOff: '6 min', timeOn: '8 min' },
    },
  },
  services: {
    'hose-1': { kind: 'hose', medium: 'oil', from: 'cabin', to: 'ring-front', timeOff: '6 min', timeOn: '9 min' },
  },
  ends: { cabin: { name: 'Control cabin' } },
  shaft: {
    clearDiameter: '10 m',
    collar: '0 m',
    slabTop: '-20 m',
    slabThickness: '2 m',
    excavation: '-22 m',
    barrier: '1.2 m',
    wall: { kind: 'secant piles', pileDiameter: '1 m', piles: 40, ringDiameter: '11 m', toe: '-30 m' },
  },
  ground: {
    surface: '0 m',
    layers: {
      fill: { name: 'Fill', top: '0 m', bottom: '-3 m', unitWeight: '18 kN/m3' },
      sand: { name: 'Sand', top: '-3 m', bottom: '-40 m', unitWeight: '20 kN/m3' },
    },
    water: { one: { layers: ['sand'], head: '-4 m', drawnDown: '-25 m', wells: { installed: 6, needed: 4 } } },
  },
  bays: { B1: { centre: ['0 m', '20 m'], size: ['8 m', '8 m'], level: '0 m', allowable: '100 kPa' } },
  systems: {
    crane: {
      name: 'Crane',
      kind: 'mobile crane',
      standings: [['12 m', '12 m']],
      hooks: {
        main: {
          name: 'Main hook',
          chart: [
            { radius: '10 m', rated: '50 t' },
            { radius: '20 m', rated: '20 t' },
          ],
        },
      },
    },
  },
  stock: { sling: { kind: 'wire rope sling', quantity: 4, length: '4 m', rated: '8 t', mass: '14 kg' } },
  pieces: {
    front: {
      name: 'Front',
      parts: ['ring-front', 'lug'],
      bay: 'B1',
      points: { top: { at: ['0.5 m', '0 m', '1.2 m'] } },
    },
    rear: { name: 'Rear', parts: ['ring-rear'] },
  },
  lifts: {
    'front-out': {
      piece: 'front',
      kind: 'out',
      system: 'crane',
      hook: 'main',
      standing: 0,
      bay: 'B1',
      rigging: { legs: [{ item: 'sling', to: 'top' }] },
    },
  },
  steps: { S1: { piece: 'front', moves: [{ by: ['0 m', '0 m', '25 m'] }], lift: 'front-out' } },
  order: ['S1'],
  tests: {
    T1: { system: 'drive', test: 'Turn', duration: '2 h' },
    T2: { system: 'drive', test: 'Run', duration: '24 h', after: ['T1'] },
  },
  programme: {
    start: '2031-11-03',
    calendars: { day: { days: ['Mon', 'Tue'], shifts: [['07:00', '17:00']], hoursPerDay: 9.5 } },
    activities: {
      A1: { name: 'Dig', calendar: 'day', days: [1, 2, 3] },
      A2: { name: 'Line', calendar: 'day', days: [1, 2, 3], after: [{ to: 'A1' }] },
    },
  },
}
