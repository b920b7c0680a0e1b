import { pointerOf } from '../working/pointer.ts'
import type { Problem } from '../working/problem.ts'
import { cycleIn } from './cycle.ts'
import { progressProblems } from './progressStructure.ts'
import type { Programme, ReadProject } from './schema/project.ts'

/** Predecessors that come back to where they began, shifts that overlap, a risk correlated with itself. */
export function programmeProblems({ programme, tests, correlations }: ReadProject): Problem[] {
  const testOrder = Object.fromEntries(Object.entries(tests).map(([id, t]) => [id, t.after]))
  return [
    ...cycleIn(testOrder).map((cycle) => circle('/tests', cycle)),
    ...(programme === undefined
      ? []
      : [
          ...activityCycles(programme),
          ...calendarProblems(programme),
          ...progressProblems(programme),
          ...setUpProblems(programme),
        ]),
    ...Object.entries(correlations).flatMap(
      ([
        id,
        {
          between: [a, b],
        },
      ]) =>
        a === b ? [{ pointer: `/correlations/${id}/between/1`, found: `"${b}" again`, expected: 'another risk' }] : [],
    ),
  ]
}

/** A set-up is of one thing: two of it would be set up each by itself. */
function setUpProblems({ setUps, resources }: Programme): Problem[] {
  const taken = new Map<string, string>()
  return Object.entries(setUps).flatMap(([id, { resource }]): Problem[] => {
    const pointer = pointerOf('programme', 'setUps', id, 'resource')
    const capacity = resources[resource]?.capacity
    const other = taken.get(resource)
    taken.set(resource, id)
    return [
      ...(capacity === undefined || capacity === 1
        ? []
        : [
            {
              pointer,
              found: `"${resource}", of which there are ${capacity}`,
              expected: 'a resource of which there is one; give each of several a resource of its own',
            },
          ]),
      ...(other === undefined
        ? []
        : [{ pointer, found: `"${resource}", which ${other} sets up already`, expected: 'one set-up for a resource' }]),
    ]
  })
}

const circle = (section: string, cycle: readonly string[]): Problem => ({
  pointer: `${section}/${cycle[0]}/after`,
  found: `a circle: ${[...cycle, cycle[0]].join(' after ')}`,
  expected: 'predecessors that do not come back to where they began',
})

/** Which end of the predecessor a link hangs on, and which end of the activity it holds. */
const ENDS = {
  FS: ['finish', 'start'],
  SS: ['start', 'start'],
  FF: ['finish', 'finish'],
  SF: ['start', 'finish'],
} as const

/**
 * Circles through starts and finishes: an activity starts before it finishes, and each link ties one end to another. Two
 * activities that start together and finish together are no circle.
 */
function activityCycles({ activities }: Programme): Problem[] {
  const after: Record<string, string[]> = {}
  for (const [id, activity] of Object.entries(activities)) {
    after[`${id} start`] = []
    after[`${id} finish`] = [`${id} start`]
    for (const { to, type } of activity.after) {
      const [theirs, own] = ENDS[type]
      after[`${id} ${own}`]?.push(`${to} ${theirs}`)
    }
  }
  return cycleIn(after).map((events) => {
    const ids = events.map((event) => event.slice(0, event.lastIndexOf(' ')))
    return circle(
      '/programme/activities',
      ids.filter((id, i) => id !== ids[i - 1]).filter((id, i, all) => i === 0 || id !== all[0]),
    )
  })
}

const DAY = 24 * 60

function calendarProblems({ calendars }: Programme): Problem[] {
  return Object.entries(calendars).flatMap(([id, { shifts, hoursPerDay }]) => {
    const spans = shifts.map(([from, to]) => spanOf(from, to))
    const hours = spans.reduce((sum, [from, to]) => sum + to - from, 0) / 60
    const at = pointerOf('programme', 'calendars', id)
    return [
      ...spans.flatMap((span, i) =>
        spans.slice(0, i).some((other) => overlaps(span, other))
          ? [
              {
                pointer: `${at}/shifts/${i}`,
                found: shifts[i]?.join(' to ') ?? '',
                expected: 'a shift clear of the others',
              },
            ]
          : [],
      ),
      ...(hoursPerDay > hours + 1e-9
        ? [
            {
              pointer: `${at}/hoursPerDay`,
              found: String(hoursPerDay),
              expected: `at most the ${hours} h of its shifts`,
            },
          ]
        : []),
    ]
  })
}

/** Minutes of the day; a shift that ends at or before its start runs past midnight. */
function spanOf(from: string, to: string): readonly [number, number] {
  const [start, end] = [minutes(from), minutes(to)]
  return [start, end > start ? end : end + DAY]
}

function minutes(clock: string): number {
  const [h, m] = clock.split(':').map(Number) as [number, number]
  return 60 * h + m
}

/** Of one day with the other and with its neighbours' days. */
const overlaps = ([a, b]: readonly [number, number], [c, d]: readonly [number, number]): boolean =>
  [-DAY, 0, DAY].some((shift) => a + shift < d && c < b + shift)
