import { eitherFirst, emptyModel, type Item, type Literal, lagBetween, type Model, sumOf, variable } from './model.ts'

/** One way of doing a job: how long it takes, what it holds meanwhile, what it uses up. */
export interface Mode {
  duration: number
  needs: readonly number[]
  uses?: readonly number[]
}

/** A job of a project with every side constraint; whole numbers throughout. */
export interface Job {
  modes: readonly Mode[]
  /** Spans of which one must hold the job whole, in rising order, apart from each other. None given: any time. */
  windows?: readonly (readonly [from: number, to: number])[]
}

/** The second starts at least a lag after the first starts or ends; below zero it bounds from the other side. */
export interface Lag {
  from: number
  at: 'start' | 'end'
  to: number
  lag: number
}

/** Jobs that one thing does one after the other, with time between kinds to set it up anew. */
export interface Turn {
  jobs: readonly number[]
  kinds: readonly number[]
  /** By the kind before and the kind after. */
  between: readonly (readonly number[])[]
}

export interface Project {
  jobs: readonly Job[]
  lags: readonly Lag[]
  capacities: readonly number[]
  stocks: readonly number[]
  turns: readonly Turn[]
}

/** Where a job's start and end stand among the variables, and which variable is 1 in each of its modes. */
interface Placed {
  start: number
  end: number
  offset: number
  modes: readonly number[]
}

/** A project as a model whose objective is the end of the last job; job i starts at variable `starts[i]`. */
export function modelOfProject(project: Project, horizon: number): Model {
  const model = emptyModel()
  const placed = project.jobs.map((job) => place(model, job, horizon))
  model.starts = placed.map(({ start }) => start)
  model.choices = placed.flatMap(({ modes }) => modes)
  model.objective = variable(model, 0, horizon)
  for (const { end, offset } of placed) lagBetween(model, end, model.objective, offset)
  for (const { from, at, to, lag } of project.lags) {
    const [a, b] = [placed[from] as Placed, placed[to] as Placed]
    if (at === 'start') lagBetween(model, a.start, b.start, lag)
    else lagBetween(model, a.end, b.start, a.offset + lag)
  }
  project.jobs.forEach(({ windows }, i) => {
    if (windows !== undefined) within(model, placed[i] as Placed, windows)
  })
  model.resources = project.capacities.map((capacity, k) => ({ capacity, items: itemsOf(project, placed, k) }))
  model.stocks = project.stocks.map((capacity, k) => ({ capacity, groups: groupsOf(model, project, placed, k) }))
  for (const turn of project.turns) inTurn(model, placed, turn)
  return model
}

function place(model: Model, { modes }: Job, horizon: number): Placed {
  const start = variable(model, 0, horizon)
  if (modes.length === 1) return { start, end: start, offset: modes[0]?.duration as number, modes: [] }
  const durations = modes.map((m) => m.duration)
  const length = variable(model, Math.min(...durations), Math.max(...durations))
  const end = variable(model, 0, horizon)
  sumOf(model, start, length, end)
  const choices = modes.map(() => variable(model, 0, 1))
  model.clauses.push(...oneOf(choices), ...lengthsOf(choices, durations, length))
  return { start, end, offset: 0, modes: choices }
}

const isOne = (v: number): Literal => [2 * v, 1]
const isNone = (v: number): Literal => [2 * v + 1, 0]

/** Exactly one of some 0-1 variables is 1. */
function oneOf(choices: readonly number[]): Literal[][] {
  const pairs = choices.flatMap((a, i) => choices.slice(i + 1).map((b) => [isNone(a), isNone(b)]))
  return [choices.map(isOne), ...pairs]
}

/** Each mode fixes the length, and a length below or above some value leaves only the modes on that side. */
function lengthsOf(choices: readonly number[], durations: readonly number[], length: number): Literal[][] {
  const fixed = choices.flatMap((v, i): Literal[][] => [
    [isNone(v), [2 * length, durations[i] as number]],
    [isNone(v), [2 * length + 1, -(durations[i] as number)]],
  ])
  const rest = [...new Set(durations)].flatMap((d): Literal[][] => [
    [[2 * length, d], ...choices.filter((_, i) => (durations[i] as number) < d).map(isOne)],
    [[2 * length + 1, -d], ...choices.filter((_, i) => (durations[i] as number) > d).map(isOne)],
  ])
  return [...fixed, ...rest]
}

/** One of the windows holds the job whole. */
function within(model: Model, { start, end, offset }: Placed, windows: NonNullable<Job['windows']>): void {
  const never = 1 << 29
  const from = (finish: number): number => windows.find(([, to]) => to >= finish)?.[0] ?? never
  const to = (begin: number): number => windows.findLast(([first]) => first <= begin)?.[1] ?? -never
  model.arcs.push({ from: 2 * end, to: 2 * start, weight: 0, up: (x) => from(x + offset) })
  model.arcs.push({ from: 2 * start + 1, to: 2 * end + 1, weight: 0, up: (x) => offset - to(-x) })
}

function itemsOf({ jobs }: Project, placed: readonly Placed[], resource: number): Item[] {
  return jobs.flatMap(({ modes }, i) => {
    const { start, end, offset, modes: choices } = placed[i] as Placed
    return modes.flatMap(({ needs, duration }, m) => {
      const need = needs[resource] ?? 0
      return need > 0 && duration > 0 ? [{ start, end, offset, need, when: choices[m] ?? -1 }] : []
    })
  })
}

function groupsOf(model: Model, { jobs }: Project, placed: readonly Placed[], stock: number) {
  return jobs.map(({ modes }, i) =>
    modes.map(({ uses }, m) => ({
      variable: placed[i]?.modes[m] ?? variable(model, 1, 1),
      amount: uses?.[stock] ?? 0,
    })),
  )
}

function inTurn(model: Model, placed: readonly Placed[], { jobs, kinds, between }: Turn): void {
  jobs.forEach((a, i) => {
    jobs.slice(i + 1).forEach((b, k) => {
      const [from, to] = [kinds[i] as number, kinds[i + 1 + k] as number]
      const gap = { ab: between[from]?.[to] as number, ba: between[to]?.[from] as number }
      model.choices.push(eitherFirst(model, placed[a] as Placed, placed[b] as Placed, gap))
    })
  })
}

/** Start and mode of each job in a solution of the project's model. */
export function readSolution(project: Project, solution: readonly number[]): { start: number; mode: number }[] {
  let next = 0
  return project.jobs.map(({ modes }) => {
    const start = solution[next++] as number
    if (modes.length === 1) return { start, mode: 0 }
    const choices = solution.slice(next + 2, next + 2 + modes.length)
    next += 2 + modes.length
    return { start, mode: choices.indexOf(1) }
  })
}

/** What a plan of a project breaks, counted from the project alone; empty when nothing. */
export function projectFaults(project: Project, plan: readonly { start: number; mode: number }[]): string[] {
  const mode = (i: number): Mode => project.jobs[i]?.modes[plan[i]?.mode as number] as Mode
  const start = (i: number): number => plan[i]?.start as number
  const end = (i: number): number => start(i) + mode(i).duration
  const faults: string[] = []
  for (const { from, at, to, lag } of project.lags)
    if (start(to) < (at === 'start' ? start(from) : end(from)) + lag) faults.push(`lag from ${from} to ${to}`)
  project.jobs.forEach(({ windows }, i) => {
    if (start(i) < 0) faults.push(`job ${i} starts before zero`)
    if (windows?.every(([from, to]) => start(i) < from || end(i) > to)) faults.push(`job ${i} lies in no window`)
  })
  project.capacities.forEach((capacity, k) => {
    for (const at of plan.map((p) => p.start)) {
      const use = plan.reduce((n, _, i) => n + (start(i) <= at && at < end(i) ? (mode(i).needs[k] ?? 0) : 0), 0)
      if (use > capacity) faults.push(`resource ${k} at ${at}`)
    }
  })
  project.stocks.forEach((capacity, k) => {
    if (plan.reduce((n, _, i) => n + (mode(i).uses?.[k] ?? 0), 0) > capacity) faults.push(`stock ${k}`)
  })
  for (const { jobs, kinds, between } of project.turns) {
    jobs.forEach((a, i) => {
      jobs.forEach((b, k) => {
        const [ab, ba] = [
          between[kinds[i] as number]?.[kinds[k] as number],
          between[kinds[k] as number]?.[kinds[i] as number],
        ]
        if (i < k && start(b) < end(a) + (ab as number) && start(a) < end(b) + (ba as number))
          faults.push(`turn of ${a} and ${b}`)
      })
    })
  }
  return faults
}
