/**
 * Which literal to decide next: the one met most in recent conflicts. Literals are kept as "job starts at or after a time" in
 * a heap by their activity, which fades as others rise.
 */
export interface Turns {
  job: number[]
  time: number[]
  activity: number[]
  /** Place of a literal by job and time. */
  known: Map<number, number>
  heap: number[]
  place: number[]
  step: number
}

export const turnsOf = (): Turns => ({
  job: [],
  time: [],
  activity: [],
  known: new Map(),
  heap: [],
  place: [],
  step: 1,
})

const TIMES = 1 << 16
const FADE = 1 / 0.95
const LARGEST = 1e100

/** A literal was met in a conflict: view and value as the solver has them. */
export function meet(turns: Turns, view: number, value: number): void {
  const job = view >> 1
  const time = (view & 1) === 0 ? value : 1 - value
  const key = job * TIMES + time
  let id = turns.known.get(key)
  if (id === undefined) {
    id = turns.job.push(job) - 1
    turns.time.push(time)
    turns.activity.push(0)
    turns.place.push(-1)
    turns.known.set(key, id)
  }
  turns.activity[id] = (turns.activity[id] as number) + turns.step
  if ((turns.activity[id] as number) > LARGEST) lower(turns)
  if ((turns.place[id] as number) < 0) put(turns, id)
  else rise(turns, turns.place[id] as number)
}

/** After each conflict: what was met before counts for less. */
export function fade(turns: Turns): void {
  turns.step *= FADE
}

function lower(turns: Turns): void {
  turns.activity = turns.activity.map((a) => a / LARGEST)
  turns.step /= LARGEST
}

export function put(turns: Turns, id: number): void {
  if ((turns.place[id] as number) >= 0) return
  turns.place[id] = turns.heap.push(id) - 1
  rise(turns, turns.place[id] as number)
}

/** Takes out the most active literal; −1 when there is none. */
export function takeMost(turns: Turns): number {
  const { heap, place } = turns
  const top = heap[0]
  if (top === undefined) return -1
  const last = heap.pop() as number
  place[top] = -1
  if (last !== top) {
    heap[0] = last
    place[last] = 0
    sink(turns, 0)
  }
  return top
}

const above = ({ activity }: Turns, a: number, b: number): boolean => (activity[a] as number) > (activity[b] as number)

function rise(turns: Turns, from: number): void {
  const { heap, place } = turns
  const id = heap[from] as number
  let at = from
  while (at > 0) {
    const parent = (at - 1) >> 1
    if (!above(turns, id, heap[parent] as number)) break
    heap[at] = heap[parent] as number
    place[heap[at] as number] = at
    at = parent
  }
  heap[at] = id
  place[id] = at
}

function sink(turns: Turns, from: number): void {
  const { heap, place } = turns
  const id = heap[from] as number
  let at = from
  for (;;) {
    let child = 2 * at + 1
    if (child >= heap.length) break
    if (child + 1 < heap.length && above(turns, heap[child + 1] as number, heap[child] as number)) child++
    if (!above(turns, heap[child] as number, id)) break
    heap[at] = heap[child] as number
    place[heap[at] as number] = at
    at = child
  }
  heap[at] = id
  place[id] = at
}
