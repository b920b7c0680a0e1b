import { type Model, model } from '../model/index.ts'
import type { Mesh } from '../numeric/mesh.ts'
import type { Check } from '../working/check.ts'
import { freshMemory, type Memory } from '../working/memory.ts'
import { problemText } from '../working/problem.ts'
import { type MassResult, mass } from './mass.ts'

type Raw = Readonly<Record<string, unknown>>

/** A part of one cubic metre of steel, 7850 kg, calculated to 4 %; `more` says otherwise. */
export const block = (more: Raw = {}): Raw => ({
  name: 'Block',
  material: 'steel',
  solids: [{ shape: 'box', centre: ['0 m', '0 m', '0 m'], size: ['1 m', '1 m', '1 m'] }],
  mass: { value: '7850 kg', basis: 'calculated', uncertainty: 0.04, date: '2031-01-01', source: 'drawing 1' },
  ...more,
})

/** A stated mass, calculated to 4 %; `more` says otherwise. */
export const known = (value: string, more: Raw = {}): Raw => ({
  value,
  basis: 'calculated',
  uncertainty: 0.04,
  date: '2031-01-01',
  source: 'drawing 1',
  ...more,
})

/** A cube with this centre and side, m. */
export const cubeAt = (x: number, y: number, z: number, side = 1): Raw => ({
  shape: 'box',
  centre: [`${x} m`, `${y} m`, `${z} m`],
  size: [`${side} m`, `${side} m`, `${side} m`],
})

/** The smallest project with these sections; allowances and coverage are set unless said otherwise. */
export const projectOf = (sections: Raw): Raw => ({
  schemaVersion: 1,
  about: { title: 'Blocks' },
  materials: { steel: { density: '7850 kg/m3' } },
  settings: SETTINGS,
  ...sections,
})

export const SETTINGS: Raw = {
  allowance: { weighed: 0.015, calculated: 0.05, catalogue: 0.03, estimated: 0.1 },
  coverage: 2,
  weightBand: '5 %',
  surveyTolerance: '5 mm',
}

/** A document read; throws when it does not read. */
export function modelOf(document: unknown, memory: Memory = freshMemory(), meshes?: ReadonlyMap<string, Mesh>): Model {
  const read = model(document, memory, meshes)
  if (read.model === undefined) throw new Error(read.problems.map(problemText).join('\n'))
  return read.model
}

/** Masses of a project made of these sections. */
export function massOf(sections: Raw, memory: Memory = freshMemory()): MassResult {
  return mass(modelOf(projectOf(sections), memory), memory)
}

/** A piece "lift" made of one block. */
export const onePiece = (more: Raw = {}, sections: Raw = {}): Raw => ({
  parts: { block: block() },
  pieces: { lift: { name: 'Lift', parts: ['block'], retained: '0 kg', ...more } },
  ...sections,
})

const only = (kind: string, sections: Raw) => (): Check => {
  const checks = massOf(sections).checks.filter((c) => c.kind === kind)
  if (checks.length !== 1) throw new Error(`${checks.length} checks of kind ${kind}`)
  return checks[0] as Check
}

const three = (kind: string, pass: Raw, fail: Raw, open: Raw) => ({
  [kind]: { pass: only(kind, pass), fail: only(kind, fail), open: only(kind, open) },
})

const partWith = (mass: unknown): Raw => ({ parts: { block: block({ mass }) } })
const { coverage: _coverage, ...WITHOUT_COVERAGE } = SETTINGS
const { weightBand: _band, ...WITHOUT_BAND } = SETTINGS

const group = (total: string): Raw => ({
  parts: { block: block({ group: 'drive' }) },
  machine: { pose: POSE, groupTotals: { drive: { mass: total, uncertainty: 0.03 } } },
})

/** Machine axes turned and shifted away from the site's, so that a frame mixed up shows. */
export const POSE: Raw = { origin: ['2 m', '0 m', '-20 m'], roll: '0 deg', pitch: '0 deg', yaw: '90 deg' }

const survey = (points: Raw): Raw => ({
  parts: { block: block() },
  machine: { pose: { ...POSE, survey: points } },
})
const surveyed = (site: string[]): Raw => survey({ nose: { machine: ['1 m', '0 m', '0 m'], site, accuracy: '2 mm' } })

const weighed = (measured: string, sections: Raw = {}): Raw =>
  onePiece({}, { weighings: { first: { piece: 'lift', measured, accuracy: 0.01 } }, ...sections })

const changedBy = (added: Raw): Raw => ({
  parts: { block: block() },
  changes: { plate: { kind: 'stiffen', what: 'Plate', status: 'approved', parts: ['block'], added } },
})
const PLATE: Raw = { mass: '100 kg', basis: 'calculated', uncertainty: 0.05, at: ['0 m', '0 m', '0.5 m'] }
const { at: _at, ...PLATE_SOMEWHERE } = PLATE

/** A piece weighed at 8 t with a tonne of rigging; whether the load hung free, and what each of two hooks showed. */
export const weighedByCells = (reads: readonly (readonly [boolean, string, string])[], sections: Raw = {}): Raw =>
  onePiece(
    {},
    {
      weighings: {
        first: {
          piece: 'lift',
          measured: '8 t',
          accuracy: 0.01,
          cells: {
            zero: '1 t',
            readings: reads.map(([free, north, south]) => ({ free, hooks: { north, south } })),
          },
        },
      },
      ...sections,
    },
  )

/** Three checks of each kind of this stage, made by the stage itself on the smallest projects. */
export const fixtures: Readonly<Record<string, { pass: () => Check; fail: () => Check; open: () => Check }>> = {
  ...three(
    'mass.part.solids',
    partWith(known('7.9 t')),
    partWith(known('9 t')),
    partWith(known('7.9 t', { uncertainty: undefined })),
  ),
  ...three(
    'mass.part.record',
    partWith(known('7.9 t')),
    partWith(known('7.9 t', { uncertainty: 0 })),
    partWith(known('7.9 t', { source: undefined })),
  ),
  ...three('mass.group.total', group('8 t'), group('10 t'), { ...group('8 t'), settings: WITHOUT_COVERAGE }),
  ...three(
    'mass.set.uncertainty',
    onePiece(),
    onePiece({}, partWith(known('7.85 t', { uncertainty: 0.2 }))),
    onePiece({}, partWith(known('7.85 t', { uncertainty: undefined }))),
  ),
  ...three('mass.pose.survey', surveyed(['2.001 m', '1 m', '-20 m']), surveyed(['3 m', '0 m', '-20 m']), survey({})),
  ...three('mass.weighed.band', weighed('8 t'), weighed('9 t'), weighed('8 t', { settings: WITHOUT_BAND })),
  ...three('mass.weighed.normalised', weighed('8 t'), weighed('9 t'), weighed('8 t', { settings: WITHOUT_COVERAGE })),
  ...three(
    'mass.weighed.cells',
    weighedByCells([[true, '4.5 t', '4.5 t']]),
    weighedByCells([[true, '4.5 t', '4.8 t']]),
    weighedByCells([[false, '4.5 t', '4.5 t']]),
  ),
  ...three(
    'mass.weighed.ceiling',
    weighedByCells([[true, '4.5 t', '4.5 t']]),
    weighedByCells([[false, '4.8 t', '4.8 t']]),
    weighedByCells([[true, '4.5 t', '4.5 t']], { settings: WITHOUT_BAND }),
  ),
  ...three(
    'mass.change.entered',
    changedBy(PLATE),
    changedBy({ ...PLATE, at: ['0 m', '0 m', '50 m'] }),
    changedBy(PLATE_SOMEWHERE),
  ),
  ...three(
    'mass.piece.retained',
    onePiece({}, { parts: { block: block({ solids: [{ ...cubeAt(0, 0, 0), fill: 0.5 }], mass: known('3925 kg') }) } }),
    onePiece({ retained: '9 t' }),
    onePiece({ retained: undefined }),
  ),
}
