import { programme } from '../../programme/index.ts'
import { boxAt, lidOnTub, SETTINGS } from '../../strip/strip.fixture.ts'
import { freshMemory } from '../../working/memory.ts'
import { stagesOf } from '../sheet/sheet.fixture.ts'
import type { DossierStages } from './dossierSheet.ts'

type Raw = Readonly<Record<string, unknown>>

/** Stages of a document as far as the dossier reads them. */
export function dossierStages(document: unknown): DossierStages {
  const stages = stagesOf(document)
  const { model, mass, strip, lift, ground } = stages
  return { ...stages, programme: programme(model, mass, strip, lift, ground, freshMemory()) }
}

/** A test with a limit of at most 1, read once where a value is given. */
export const testOf = (value: number | undefined, more: Raw = {}): Raw => ({
  system: 'drive',
  test: 'Run-out',
  duration: '2 h',
  limit: { atMost: 1 },
  unit: 'mm',
  readings: value === undefined ? {} : { r1: { value, by: 'fitter', on: '2033-02-01' } },
  ...more,
})

/** A lid bolted and piped on a tub, with one record of every kind; nothing on it fails, and nothing is open but what is said. */
export const everyRecord = (more: Raw = {}): Raw =>
  lidOnTub({
    settings: { ...SETTINGS, coverage: 2, weightBand: '5 %', allowance: { calculated: 0.05 } },
    parts: {
      lid: boxAt([0, 0, 0.5], [1, 1, 1], { mass: { value: '7.85 t', basis: 'calculated', uncertainty: 0.02 } }),
      tub: boxAt([0, 0, -0.5]),
    },
    pieces: { lid: { name: 'Lid', parts: ['lid'], retained: '0 t' } },
    services: {
      H1: {
        kind: 'pipe',
        medium: 'oil',
        from: 'lid',
        to: 'tub',
        timeOff: '5 min',
        timeOn: '12 min',
        parted: { by: 'fitter', on: '2033-01-05', tag: 'H1' },
        joined: { by: 'fitter', on: '2033-01-20', tag: 'H1', port: 'H1', checkedBy: 'foreman' },
      },
      H2: { kind: 'pipe', medium: 'air', from: 'lid', to: 'tub', timeOff: '5 min', timeOn: '12 min' },
    },
    weighings: { W1: { piece: 'lid', measured: '7.85 t', accuracy: 0.01, date: '2033-01-06' } },
    inspections: {
      seat: {
        what: 'Seat of the lid',
        kind: 'structure',
        opened: { by: 'fitter', on: '2033-01-06' },
        measures: {
          flat: {
            what: 'Flatness',
            unit: 'mm',
            limit: { atMost: 0.2 },
            from: 'drawing',
            readings: { r1: { value: 0.12, by: 'surveyor', on: '2033-01-07' } },
          },
        },
        decided: { as: 'reused', by: 'machine engineer', on: '2033-01-08' },
      },
    },
    welds: {
      rib: {
        what: 'Rib under the lid',
        procedure: { id: 'P-7', qualifiedBy: 'Q-7' },
        welders: { a: { mark: 'W12', qualification: '135 P BW', until: '2033-12-31' } },
        preheat: { atLeast: 120, lowest: 125 },
        finished: '2033-01-10T10:00',
        wait: '24 h',
        tests: {
          VT: {
            method: 'VT',
            level: 'B of ISO 5817',
            asked: '100 %',
            done: '100 %',
            on: '2033-01-12T10:00',
            by: 'examiner',
            qualification: 'level 2',
            result: 'accepted',
          },
        },
      },
    },
    boltRecords: {
      B1: {
        joint: 'J1',
        by: 'fitter',
        on: '2033-01-18',
        checkedBy: 'foreman',
        bolts: 10,
        lot: 'L-1',
        lubricant: 'oil',
        tool: { what: 'wrench 4', calibratedUntil: '2033-06-30' },
        rechecked: { by: 'foreman', on: '2033-01-19' },
      },
    },
    tests: { T1: testOf(0.6) },
    punchList: {
      seep: {
        what: 'Lid seeps',
        found: { by: 'fitter', on: '2033-01-21' },
        blocks: 'restart',
        closed: { by: 'foreman', on: '2033-01-22', evidence: 'dry for a day' },
      },
    },
    ...more,
  })
