import { ALWAYS } from '../calendar.ts'
import { FS, type Links, type Network, offsets, reversed, topological } from '../network.ts'

/**
 * A resource-constrained project: whole durations, finish-to-start links, renewable resources of constant capacity. Jobs are
 * counted from 0; the first and the last take no time and stand for start and end.
 */
export interface Instance {
  durations: readonly number[]
  /** Successors of each job. */
  successors: readonly (readonly number[])[]
  /** Need of each job, by resource. */
  needs: readonly (readonly number[])[]
  capacities: readonly number[]
}

/** The same as a network on a calendar without breaks, so that plans and searches of the programme work on it. */
export function networkOfInstance({ durations, successors, needs, capacities }: Instance): Network {
  const n = durations.length
  const flat = successors.flat()
  const after: Links = {
    first: offsets(successors.map((s) => s.length)),
    other: Int32Array.from(flat),
    type: new Uint8Array(flat.length).fill(FS),
    lag: new Float64Array(flat.length),
    calendar: flat.map(() => undefined),
  }
  const before = reversed(after)
  const held = needs.map((row) => row.flatMap((amount, resource) => (amount > 0 ? [{ amount, resource }] : [])))
  const ids = durations.map((_, i) => String(i + 1))
  return {
    ids,
    index: new Map(ids.map((id, i) => [id, i])),
    work: Float64Array.from(durations),
    calendar: durations.map(() => ALWAYS),
    unbroken: new Uint8Array(n),
    notBefore: new Float64Array(n),
    finishBy: new Float64Array(n).fill(Number.POSITIVE_INFINITY),
    before,
    after,
    order: topological(before, after),
    resources: capacities.map((_, k) => `R${k + 1}`),
    capacity: Float64Array.from(capacities),
    needs: {
      first: offsets(held.map((h) => h.length)),
      resource: Int32Array.from(held.flat(), (h) => h.resource),
      amount: Float64Array.from(held.flat(), (h) => h.amount),
    },
    setUps: [],
    restart: -1,
  }
}
