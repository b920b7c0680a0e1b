import { type Derivation, type Stages, startDerivation } from '@shieldwright/engine'
import { problemText } from '@shieldwright/engine/working/problem.ts'

type Raw = Readonly<Record<string, unknown>>

const WEEK = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri']
const day = { days: WEEK, shifts: [['07:00', '19:00']], hoursPerDay: 12 }

/** Three activities in a row in a zone with summer time, one of them a delivery; whatever else is given. */
export const smallPlan = (programme: Raw = {}, more: Raw = {}): Raw => ({
  schemaVersion: 1,
  about: { title: 'Small' },
  programme: {
    start: '2032-03-01',
    timeZone: 'Europe/Paris',
    calendars: { day },
    resources: { crane: { name: 'Crane', kind: 'plant', capacity: 1 } },
    activities: {
      A: { name: 'Dig', calendar: 'day', days: [1, 2, 3] },
      B: { name: 'Seals, ordered', calendar: 'day', days: [3, 4, 9], after: [{ to: 'A' }] },
      C: {
        name: 'Fit',
        calendar: 'day',
        days: [1, 1, 1],
        after: [{ to: 'B' }],
        needs: { crane: 1 },
        holdPoint: 'witnessed; signed',
      },
    },
    deliveries: { seals: { what: 'Seals', activity: 'B', neededBy: ['C'] } },
    restart: 'C',
    ...programme,
  },
  ...more,
})

/** Part, piece and lift, for weighings and survey. */
export const onePiece: Raw = {
  materials: { steel: { density: '7850 kg/m3' } },
  parts: {
    P: {
      name: 'Crown',
      material: 'steel',
      solids: [{ shape: 'sphere', radius: '1 m', centre: ['0 m', '0 m', '0 m'] }],
    },
  },
  pieces: { crown: { name: 'Crown', parts: ['P'] } },
  machine: { pose: { origin: ['3 m', '0 m', '-29 m'], roll: '0 deg', pitch: '0 deg', yaw: '0 deg' } },
}

/** Everything that follows from a project, which has to be a sound one. */
export function derived(document: unknown): { derivation: Derivation; stages: Stages } {
  const derivation = startDerivation(document)
  const { stages, problems } = derivation.derived
  if (stages === undefined) throw new Error(problems.map(problemText).join('\n'))
  return { derivation, stages }
}

export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text)
