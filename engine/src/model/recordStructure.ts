import { pointerOf } from '../working/pointer.ts'
import type { Problem } from '../working/problem.ts'
import { isIssueLetter } from './issueLetter.ts'
import type { DiaryEntry, ReadProject } from './schema/project.ts'

type Recorded = Pick<ReadProject, 'diary' | 'punchList' | 'boltRecords' | 'joints' | 'issuedBooks'>

/** Records that contradict themselves: more time lost than the shift has, an action due before it was written down, more bolts than there are; an issue without a letter. */
export function recordProblems({ diary, punchList, boltRecords, joints, issuedBooks }: Recorded): Problem[] {
  return [
    ...Object.entries(diary).flatMap(([id, entry]) => entryProblems(entry, pointerOf('diary', id))),
    ...Object.entries(punchList).flatMap(([id, { found, closed }]) =>
      closed !== undefined && closed.on < found.on
        ? [early(pointerOf('punchList', id, 'closed', 'on'), closed.on, found.on)]
        : [],
    ),
    ...Object.entries(boltRecords).flatMap(([id, { joint, bolts, samples }]) => {
      const count = joints[joint]?.bolts?.count
      const over = (n: number, pointer: string): Problem[] =>
        count === undefined || n <= count
          ? []
          : [{ pointer, found: String(n), expected: `at most the ${count} bolts of ${joint}`, example: String(count) }]
      return [
        ...over(bolts, pointerOf('boltRecords', id, 'bolts')),
        ...Object.entries(samples).flatMap(([s, { bolt }]) =>
          over(bolt, pointerOf('boltRecords', id, 'samples', s, 'bolt')),
        ),
      ]
    }),
    ...Object.keys(issuedBooks).flatMap((letter) => (isIssueLetter(letter) ? [] : [noLetter(letter)])),
  ]
}

const noLetter = (found: string): Problem => ({
  pointer: pointerOf('issuedBooks', found),
  found: `"${found}"`,
  expected: 'the letter of the issue, one or two capitals',
  example: 'B',
})

function entryProblems({ on, shift, lost, actions, weather }: DiaryEntry, at: string): Problem[] {
  const hours = shiftHours(shift)
  const { lowest, highest } = weather ?? {}
  return [
    ...lost.flatMap(({ time }, i): Problem[] =>
      (time.value ?? 0) <= hours * HOUR
        ? []
        : [
            {
              pointer: `${at}/lost/${i}/time`,
              found: `${(time.value as number) / HOUR} h lost`,
              expected: `at most the ${hours} h of the shift`,
              example: '1.5 h',
            },
          ],
    ),
    ...actions.flatMap(({ due, done }, i) => [
      ...(due < on ? [early(`${at}/actions/${i}/due`, due, on)] : []),
      ...(done !== undefined && done.on < on ? [early(`${at}/actions/${i}/done/on`, done.on, on)] : []),
    ]),
    ...(lowest?.value !== undefined && highest?.value !== undefined && lowest.value > highest.value
      ? [
          {
            pointer: `${at}/weather/lowest`,
            found: `${lowest.value} °C, above the highest of ${highest.value} °C`,
            expected: 'the lowest temperature no higher than the highest',
          },
        ]
      : []),
  ]
}

const early = (pointer: string, found: string, on: string): Problem => ({
  pointer,
  found,
  expected: `a day no earlier than the entry's own, ${on}`,
  example: on,
})

const HOUR = 3600

/** Hours of a shift on the clock; one that ends before it starts runs past midnight. */
export function shiftHours([from, to]: DiaryEntry['shift']): number {
  const hour = (clock: string): number => {
    const [h, m] = clock.split(':').map(Number) as [number, number]
    return h + m / 60
  }
  return (((hour(to) - hour(from)) % 24) + 24) % 24 || 24
}
