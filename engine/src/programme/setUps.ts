import type { Programme } from '../model/index.ts'
import type { Activities, Activity } from './activity.ts'

/** Set-up of one resource between kinds of work, for the activities of a network. */
export interface SetUp {
  /** Kind of each activity; −1: none, and the set-up stays as it was. */
  kind: Int32Array
  /** Elapsed seconds from one kind to another: `[from][to]`. */
  time: readonly (readonly number[])[]
}

/** The same by activity id, before there is a network. */
export interface SetUpInput {
  kindOf: Readonly<Record<string, number>>
  time: readonly (readonly number[])[]
}

type Stated = Programme['setUps'][string]

/** Set-ups by resource; an activity is of the first kind that names it, its lift, its kind or its phase. */
export function setUpsOf({ setUps }: Programme, activities: Activities): Record<string, SetUpInput> {
  return Object.fromEntries(
    Object.values(setUps).map((stated): [string, SetUpInput] => {
      const kinds = Object.keys(stated.kinds)
      const kindOf = Object.values(activities).flatMap((activity): [string, number][] => {
        const at = kinds.findIndex((kind) => isOf(activity, stated.kinds[kind] as Stated['kinds'][string]))
        return at < 0 ? [] : [[activity.id, at]]
      })
      const time = kinds.map((from) =>
        kinds.map((to) => stated.times.find((t) => t.from === from && t.to === to)?.time.value ?? 0),
      )
      return [stated.resource, { kindOf: Object.fromEntries(kindOf), time }]
    }),
  )
}

const isOf = ({ id, lift, kind, phase }: Activity, of: Stated['kinds'][string]): boolean =>
  of.activities.includes(id) ||
  (lift !== undefined && of.lifts.includes(lift)) ||
  of.kinds.includes(kind) ||
  of.phases.includes(phase)

/** Elapsed seconds between the finish of one activity and the start of another on a resource, whatever stands between them. */
export function setUpBetween(setUp: SetUp | undefined, from: number, to: number): number {
  if (setUp === undefined) return 0
  const [a, b] = [setUp.kind[from] as number, setUp.kind[to] as number]
  return a < 0 || b < 0 ? 0 : ((setUp.time[a] as readonly number[])[b] as number)
}
