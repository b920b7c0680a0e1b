import type { Model } from '../../model/index.ts'

export type Test = Model['project']['tests'][string]
export type Reading = Test['readings'][string]

/** Readings that stand, by id: of each place, feeder or chamber the latest, the last written of the same day. */
export function standing({ readings }: Pick<Test, 'readings'>): readonly (readonly [id: string, reading: Reading])[] {
  const last = new Map<string, readonly [string, Reading]>()
  for (const [id, reading] of Object.entries(readings)) {
    const before = last.get(reading.of ?? '')
    if (before === undefined || before[1].on <= reading.on) last.set(reading.of ?? '', [id, reading])
  }
  return [...last.values()]
}

/** Scale numbers of a code of ISO 4406. */
export const scaleNumbers = (code: string): readonly [number, number, number] =>
  code.split('/').map(Number) as [number, number, number]
