import { mass, readStl } from '../../engine/src/mass/index.ts'
import type { Lump } from '../../engine/src/mass/lump.ts'
import { centreOf, inertiaOf, spreadAbout } from '../../engine/src/mass/rollup.ts'
import { combined, shiftsOf, uncertaintiesOf } from '../../engine/src/mass/uncertainty.ts'
import { model } from '../../engine/src/model/index.ts'
import type { Mat3, Vec3 } from '../../engine/src/numeric/vector.ts'
import { stated } from '../../engine/src/working/answer.ts'
import { freshMemory } from '../../engine/src/working/memory.ts'
import { problemText } from '../../engine/src/working/problem.ts'
import { listOf, numberOr, numbersOf, recordOf, rowsOf, textOf } from '../inputs.ts'
import type { Inputs, Value, VerifiedFunction } from '../types.ts'
import { facetsOf } from './mass-facets.ts'

/** What cases of this stage call by name, beside the formulas. */
export const functions: Record<string, VerifiedFunction> = {
  /** A part made of solids, through the project file: volume, mass, centroid, inertia for density one, bounds. */
  'mass.part': (inputs) => partOf(listOf(inputs, 'solids').map(solidText), numberOr(inputs, 'rho', 1)),
  /** A mesh through the text form of STL and the project file; vertices and triangles, some turned or left out. */
  'mass.mesh': meshOf,
  /** A round body as facets, through the text form of STL and the project file. */
  'mass.faceted': (inputs) => {
    const { vertices, triangles } = facetsOf(inputs)
    return { corners: vertices.length, triangles: triangles.length, ...throughStl(vertices, triangles) }
  },
  /** Standard uncertainty of the centre along x, from those of the masses, by both rules. */
  'mass.centre-uncertainty': (inputs) => {
    const lumps = listOf(inputs, 'parts').map((value, i) => {
      const { m, u, x } = value as { m: number; u: number; x: number }
      return lump({ label: `${i}`, m, u, cog: [x, 0, 0] })
    })
    const centre = centreOf(lumps)
    const total = lumps.reduce((sum, l) => sum + (l.mass.value as number), 0)
    const shifts = shiftsOf(lumps, 0, centre, total)
    return { x: centre[0], independent: combined(shifts, 'independent'), correlated: combined(shifts, 'correlated') }
  },
  /** Terms with mass, place and inertia rolled up. */
  'mass.roll-up': rollUp,
  /** Both rules of combining standard uncertainties. */
  'mass.uncertainties': (inputs) => {
    const both = uncertaintiesOf(numbersOf(inputs, 'u').map((u, i) => lump({ label: `${i}`, u })))
    return { independent: both.independent.value, correlated: both.correlated.value }
  },
  /** A group of parts against the total its maker gives. */
  'mass.group': groupOf,
  /** A piece of one steel box of a given mass, through found, weighed and returned. */
  'mass.piece': pieceOf,
}

const LENGTHS = new Set([
  'inner',
  'outer',
  'radius',
  'along',
  'from',
  'to',
  'radii',
  'centre',
  'size',
  'radial',
  'across',
  'profile',
  'outline',
  'between',
])

/** A solid of a case, in SI, as the project file writes it. */
function solidText(value: Value): Record<string, unknown> {
  const entries = Object.entries(value as Record<string, Value>)
  return Object.fromEntries(entries.map(([key, v]) => [key, LENGTHS.has(key) ? withUnit(v, 'm') : angled(key, v)]))
}

const angled = (key: string, v: Value): unknown => (key === 'angles' || key === 'angle' ? withUnit(v, 'rad') : v)

const withUnit = (v: Value, unit: string): unknown =>
  Array.isArray(v) ? v.map((item) => withUnit(item as Value, unit)) : `${v} ${unit}`

const project = (sections: Record<string, unknown>) => ({
  schemaVersion: 1,
  about: { title: 'Verification' },
  ...sections,
})

function derived(sections: Record<string, unknown>, meshes = new Map()) {
  const memory = freshMemory()
  const read = model(project(sections), memory, meshes)
  if (read.model === undefined) throw new Error(read.problems.map(problemText).join('; '))
  return mass(read.model, memory)
}

function partOf(solids: readonly unknown[], rho: number, meshes = new Map()): Record<string, Value> {
  const result = derived(
    { materials: { it: { density: `${rho} kg/m3` } }, parts: { part: { name: 'Part', material: 'it', solids } } },
    meshes,
  )
  const { net, cogMachine, inertia, boundsMachine } = result.machine
  return {
    volume: result.parts.part?.shape.amount,
    mass: net.value,
    centroid: [...cogMachine],
    inertia: inertia.map((row) => [...row]),
    bounds: { min: [...boundsMachine.min], max: [...boundsMachine.max] },
  }
}

function meshOf(inputs: Inputs): Record<string, Value> {
  const vertices = rowsOf(inputs, 'vertices')
  const turned = new Set(inputs.turned === undefined ? [] : numbersOf(inputs, 'turned'))
  const missing = new Set(inputs.missing === undefined ? [] : numbersOf(inputs, 'missing'))
  const all = inputs.allTurned === true
  const triangles = rowsOf(inputs, 'triangles').flatMap((t, i) => {
    if (missing.has(i)) return []
    return [all || turned.has(i) ? [...t].reverse() : t]
  })
  return throughStl(vertices, triangles)
}

function throughStl(vertices: readonly number[][], triangles: readonly number[][]): Record<string, Value> {
  const text = triangles.map((t) => facet(t.map((i) => vertices[i] as number[]))).join('')
  const read = readStl(new TextEncoder().encode(`solid case\n${text}endsolid case\n`), 'case.stl')
  if ('problems' in read) return { closed: false, problem: read.problems.map((p) => p.found) }
  const solid = { shape: 'mesh', file: 'case', scale: '1 m' }
  return { closed: true, notes: [...read.notes], ...partOf([solid], 1, new Map([['case', read.mesh]])) }
}

const facet = (corners: readonly number[][]): string =>
  `facet normal 0 0 0\nouter loop\n${corners.map((c) => `vertex ${c.join(' ')}\n`).join('')}endloop\nendfacet\n`

function lump(text: { label: string; m?: number; u?: number; cog?: Vec3; spread?: Mat3 }): Lump {
  return {
    label: text.label,
    mass: stated('kg', text.m ?? 0, 'case'),
    uncertainty: stated('kg', text.u ?? 0, 'case'),
    basis: 'calculated',
    cog: text.cog ?? [0, 0, 0],
    spread: text.spread ?? [
      [0, 0, 0],
      [0, 0, 0],
      [0, 0, 0],
    ],
    place: {},
  }
}

/** Second moments about planes from principal moments about axes: ½ (Ixx + Iyy + Izz) − Ixx, and so on. */
function secondMoments([a, b, c]: Vec3): Mat3 {
  const half = (a + b + c) / 2
  return [
    [half - a, 0, 0],
    [0, half - b, 0],
    [0, 0, half - c],
  ]
}

/** Parts: `{ m, at: [x, y, z], inertia?: [Ixx, Iyy, Izz] }`. */
function rollUp(inputs: Inputs): Record<string, Value> {
  const lumps = listOf(inputs, 'parts').map((value, i) => {
    const part = value as { m: number; at: Vec3; inertia?: Vec3 }
    return lump({ label: `${i}`, m: part.m, cog: part.at, spread: secondMoments(part.inertia ?? [0, 0, 0]) })
  })
  const centre = centreOf(lumps)
  return {
    mass: lumps.reduce((sum, l) => sum + (l.mass.value as number), 0),
    centre: [...centre],
    inertia: inertiaOf(spreadAbout(lumps, centre)).map((row) => [...row]),
  }
}

/** A steel cube of this mass, so that shape and mass agree. */
function cube(mass: number, extra: Record<string, unknown>) {
  const side = `${Math.cbrt(mass / 7850)} m`
  const solids = [{ shape: 'box', centre: ['0 m', '0 m', '0 m'], size: [side, side, side] }]
  return { name: 'Part', material: 'steel', solids, ...extra }
}

const STEEL = { steel: { density: '7850 kg/m3' } }

function groupOf(inputs: Inputs): Record<string, Value> {
  const masses = Object.entries(recordOf(inputs, 'parts'))
  const share = 0.01
  const parts = masses.map(([id, m]) => [
    id,
    cube(m as number, { group: 'whole', mass: { value: `${m} kg`, basis: 'weighed', uncertainty: share } }),
  ])
  const result = derived({
    settings: { coverage: 2 },
    materials: STEEL,
    parts: Object.fromEntries(parts),
    machine: {
      pose: { origin: ['0 m', '0 m', '0 m'], roll: '0 deg', pitch: '0 deg', yaw: '0 deg' },
      groupTotals: { whole: { mass: `${inputs.whole} kg`, uncertainty: share } },
    },
  })
  const found = result.checks.find((c) => c.kind === 'mass.group.total')
  return { sum: result.machine.net.value, residual: found?.demand.value, verdict: found?.verdict }
}

function pieceOf(inputs: Inputs): Record<string, Value> {
  const allowances = recordOf(inputs, 'allowance')
  const weighed = inputs.weighed === undefined ? {} : weighing(inputs)
  const result = derived({
    settings: { allowance: allowances, coverage: 2, weightBand: 0.05 },
    materials: STEEL,
    parts: {
      part: cube(inputs.mass as number, {
        mass: {
          value: `${inputs.mass} kg`,
          basis: textOf(inputs, 'basis'),
          uncertainty: numberOr(inputs, 'uncertainty', 0),
        },
      }),
    },
    pieces: { piece: { name: 'Piece', parts: ['part'], retained: `${numberOr(inputs, 'retained', 0)} kg` } },
    ...weighed,
  })
  const piece = result.pieces.piece
  const normalised = result.checks.find((c) => c.kind === 'mass.weighed.normalised')
  return {
    found: piece?.found.design.value,
    weighed: piece?.weighed?.design.value,
    uncertainty: piece?.weighed?.uncertainty.value,
    unexplained: piece?.weighed?.unexplained?.value,
    normalised: normalised?.demand.value,
    verdict: normalised?.verdict,
  }
}

const weighing = (inputs: Inputs) => ({
  weighings: { first: { piece: 'piece', measured: `${inputs.weighed} kg`, accuracy: numberOr(inputs, 'accuracy', 0) } },
})
