/**
 * Which literal to decide next: the one met most in recent conflicts. Literals are kept as "variable is at least a time" in
 * a heap by their activity, which fades as others rise.
 */
export interface Turns {
  variable: number[]
  time: number[]
  activity: number[]
  /** Place of a literal by variable and time; times apart that one variable may have. */
  known: { get: (key: number) => number | undefined; set: (key: number, place: number) => void }
  span: number
  heap: number[]
  place: number[]
  step: number
}

export const turnsOf = (variables: number, span: number): Turns => ({
  variable: [],
  time: [],
  activity: [],
  known: placesOf(variables * span),
  span,
  heap: [],
  place: [],
  step: 1,
})

const FADE = 1 / 0.9
const LARGEST = 1e100

const MOST_DENSE = 1 << 22

/** Places by key: a plain array where there are not too many keys. */
function placesOf(keys: number): Turns['known'] {
  if (keys > MOST_DENSE) return new Map()
  const places = new Int32Array(keys).fill(-1)
  return {
    get: (key) => {
      const place = places[key] as number
      return place < 0 ? undefined : place
    },
    set: (key, place) => {
      places[key] = place
    },
  }
}

/** A literal was met in a conflict: view and value as the solver has them. */
export function meet(turns: Turns, view: number, value: number): void {
  const variable = view >> 1
  const time = (view & 1) === 0 ? value : 1 - value
  const key = variable * turns.span + time
  let id = turns.known.get(key)
  if (id === undefined) {
    id = turns.variable.push(variable) - 1
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

const MOST_LITERALS = 200_000

/** When too many literals have been met, the less active half is forgotten. Only with all of them in the heap. */
export function trim(turns: Turns): void {
  const { variable, time, activity } = turns
  if (variable.length <= MOST_LITERALS) return
  const kept = variable
    .map((_, id) => id)
    .sort((a, b) => (activity[b] as number) - (activity[a] as number) || a - b)
    .slice(0, MOST_LITERALS / 2)
  turns.variable = kept.map((id) => variable[id] as number)
  turns.time = kept.map((id) => time[id] as number)
  turns.activity = kept.map((id) => activity[id] as number)
  turns.heap = kept.map((_, id) => id)
  turns.place = kept.map((_, id) => id)
  turns.known = new Map(
    kept.map((_, id) => [(turns.variable[id] as number) * turns.span + (turns.time[id] as number), id]),
  )
}
