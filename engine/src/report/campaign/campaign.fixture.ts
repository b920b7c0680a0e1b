import { blockOnTwoLegs } from '../sheet/sheet.fixture.ts'

type Raw = Record<string, unknown>

/**
 * A campaign of as many pieces as are asked for, of masses from 2 t to 130 t on five bays, each lifted straight out of a small
 * shaft; over more than a year something is waited for before the first and between the last.
 */
export function manyPieces({ count, years }: { count: number; years: number }): Raw {
  const base = blockOnTwoLegs() as Record<string, Raw>
  const ids = Array.from({ length: count }, (_, i) => i)
  const bays = Object.fromEntries(
    [0, 1, 2, 3, 4].map((b) => [
      `N${b}`,
      { centre: ['0 m', `${15 + 10 * b} m`], size: ['8 m', '8 m'], level: '0.1 m', allowable: '150 kPa' },
    ]),
  )
  const named = <T>(prefix: string, of: (i: number) => T): Record<string, T> =>
    Object.fromEntries(ids.map((i) => [`${prefix}${i}`, of(i)]))
  const wait = (name: string, more: Raw): Raw => ({ name, calendar: 'always', days: [200, 365, 500], ...more })
  const long = years > 1
  return {
    ...base,
    parts: named('PART', (i) => ({
      name: `Block ${i}`,
      material: 'steel',
      solids: [
        {
          shape: 'box',
          centre: [`${(i % 2) * 2 - 1} m`, `${(Math.floor(i / 2) % 4) * 2 - 3} m`, `${-2 * Math.floor(i / 8)} m`],
          size: ['1.9 m', '1.9 m', '1.9 m'],
        },
      ],
      mass: { value: `${i % 3 === 0 ? 2 + (i % 7) : 20 + ((i * 37) % 110)} t`, basis: 'calculated', uncertainty: 0.02 },
    })),
    pieces: named('piece-', (i) => ({
      name: `Piece number ${i} of the shield`,
      short: `Piece ${i}`,
      parts: [`PART${i}`],
      retained: '0 t',
    })),
    bays,
    lifts: Object.fromEntries(
      ids.flatMap((i) =>
        (['out', 'back'] as const).map((kind) => [
          `${kind}-${i}`,
          {
            piece: `piece-${i}`,
            kind,
            as: kind === 'out' ? 'found' : 'returned',
            system: 'T',
            hook: 'H',
            bay: `N${i % 5}`,
          },
        ]),
      ),
    ),
    steps: named('S', (i) => ({
      piece: `piece-${i}`,
      moves: [{ by: ['0 m', '0 m', '22 m'] }],
      lift: `out-${i}`,
      back: `back-${i}`,
    })),
    order: ids.map((i) => `S${i}`),
    programme: {
      start: '2031-11-03',
      restart: 'END',
      calendars: {
        lift: { days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'], shifts: [['07:00', '19:00']], hoursPerDay: 12 },
        always: {
          days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'],
          shifts: [['00:00', '24:00']],
          hoursPerDay: 24,
        },
      },
      resources: { T: { name: 'Tower', kind: 'plant', capacity: 1 } },
      activities: {
        ...(long
          ? {
              W1: wait('Parts made', {}),
              W2: wait('Bearing made', { afterSteps: [`S${count - 1}`], beforeReturn: [`S${count - 1}`] }),
            }
          : {}),
        END: { name: 'Restart', calendar: 'always', days: [1, 1, 1], afterReturn: ['S0'] },
      },
      work: {
        joints: { calendar: 'always' },
        services: { calendar: 'always' },
        lifts: { calendar: 'lift' },
        changes: { calendar: 'always' },
        tests: { calendar: 'always' },
        setUp: '2 h',
        byHand: '2 h',
        spread: [0.8, 1.5],
        ...(long ? { stripAfter: ['W1'] } : {}),
      },
    },
  }
}
