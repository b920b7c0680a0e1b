import type { Ground } from '../model/index.ts'
import { type Answer, found, given } from '../working/answer.ts'
import type { SiUnit } from '../working/unit.ts'

/** Shown beside every ground check. */
export const SOIL = 'Soil values are from few holes. Local codes and a licensed engineer decide.'
/** Shown where confined water or wells matter. */
export const WATER = 'A water level that recovers can move the base within hours; know the time.'
/** Shown where the wall carries. */
export const RING =
  'A ring is strong only while it is a ring: this does not hold at an eye after it is cut. Measure verticality as built.'

type Factor = keyof Omit<NonNullable<Ground['factors']>, 'decidedBy' | 'source'>

/** A factor the project chose, or the open place where it should stand. */
export const factorOf = (ground: Ground, name: Factor): Answer<'1'> =>
  ground.factors?.[name] ?? given('1', `/ground/factors/${name}`, undefined)

/** Something that carries only once a person has signed for it; until then it is unknown, at that address. */
export const onceSigned = <U extends SiUnit>(
  value: Answer<U>,
  pointer: string,
  by: string | undefined,
  method: string,
): Answer<U> =>
  found({
    unit: value.unit,
    value: value.value,
    method,
    inputs: { value, signed: given('1', pointer, by === undefined ? undefined : 1) },
    residuals: [],
  })
