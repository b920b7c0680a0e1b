import type { TemporaryWork } from '../model/index.ts'
import { type Answer, given } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { faultsFound, NONE } from '../working/fault.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { dayOf, dayWords } from './judged.ts'
import { worksFigures, worksIndependent, worksReady } from './kinds.ts'
import type { Pick } from './pick.ts'
import { figureDifference } from './works.formulas.ts'

const CAUTION =
  'A certificate says that a design was checked, not that what stands is as drawn: it is seen as built before its permit to load. The coordinator of temporary works and licensed engineers decide.'

type Works = Readonly<Record<string, TemporaryWork>>

/** Everything temporary under a lift has its certificates and its permit to load. No check where nothing is named. */
export function worksCheck(pick: Pick): Check[] {
  const { works } = pick
  if (works.length === 0) return []
  const { day, missing: dayMissing } = dayOf(pick)
  const wrong = works.flatMap(({ id, work }) => faultsOf(work, day).map((fault) => `${work.name} (${id}): ${fault}`))
  const missing = works.flatMap(({ id, work }) => missingOf(id, work))
  return [
    check({
      kind: worksReady,
      subject: pick.subject,
      demand: faultsFound(wrong.length, 'temporary works under the lift that are not ready', {
        ...Object.fromEntries(missing),
        ...dayMissing,
      }),
      capacity: NONE,
      near: pick.near,
      found: wrong,
      assumptions: [...dayWords(pick), `rests on ${works.map(({ id, work }) => `${work.name} (${id})`).join(', ')}`],
      cautions: [CAUTION],
    }),
  ]
}

/** What a work has to have before it is loaded, where it stands in the file, and what is not there. */
function missingOf(id: string, work: TemporaryWork): [string, Answer][] {
  const at = (...tokens: string[]): Answer => given('1', pointerOf('temporaryWorks', id, ...tokens), undefined)
  const acts = (['designed', 'checked', 'permitToLoad'] as const).filter((act) => work[act] === undefined)
  const approvals = Object.entries(work.approvals).filter(([, approval]) => approval.given === undefined)
  return [
    ...acts.map((act): [string, Answer] => [`${id} ${act}`, at(act)]),
    ...approvals.map(([by, { of }]): [string, Answer] => [`${id} ${of}`, at('approvals', by, 'given')]),
  ]
}

function faultsOf(
  { designed, checked, permitToLoad, permitToUnload }: TemporaryWork,
  day: string | undefined,
): string[] {
  const isBefore = (first: string | undefined, second: string | undefined): boolean =>
    first !== undefined && second !== undefined && first < second
  return [
    ...(isBefore(checked?.on, designed?.on)
      ? [`checked on ${checked?.on}, before its design of ${designed?.on}: have this design checked`]
      : []),
    ...(isBefore(permitToLoad?.on, checked?.on)
      ? [
          `permit to load of ${permitToLoad?.on}, before its check certificate of ${checked?.on}: have a permit given on what was checked`,
        ]
      : []),
    ...(isBefore(day, permitToLoad?.on)
      ? [
          `may be loaded from ${permitToLoad?.on}, the lift is on ${day}: move the lift, or have the permit given for its day`,
        ]
      : []),
    ...(isBefore(permitToLoad?.until, day)
      ? [
          `permit to load ended on ${permitToLoad?.until}, the lift is on ${day}: have it looked at and permitted again, or move the lift`,
        ]
      : []),
    ...(isBefore(permitToUnload?.on, day)
      ? [`may be taken away from ${permitToUnload?.on}, the lift is on ${day}: keep it standing, or move the lift`]
      : []),
  ]
}

/** Of every work of the register: who checked it, and what their own figures are beside the designer's. */
export function registerChecks(works: Works, near: number, memory: Memory): readonly Check[] {
  return memory.once('lift-works', [works, near], () =>
    Object.entries(works).flatMap(([id, work]) => [independenceCheck(id, work, near), ...figureChecks(id, work, near)]),
  )
}

const subjectOf = (id: string, { name }: TemporaryWork) => ({ pointer: pointerOf('temporaryWorks', id), id, name })

function independenceCheck(id: string, work: TemporaryWork, near: number): Check {
  const { category, designer, checker } = work
  const wrong =
    designer === undefined || checker === undefined || category === undefined || category === 0
      ? []
      : category === 3 && designer.organisation === checker.organisation
        ? [
            `category 3 is checked by another organisation; designer and checker are both of ${designer.organisation}: have another one check it`,
          ]
        : designer.name === checker.name && designer.organisation === checker.organisation
          ? [
              `category ${category} is checked by another person; ${designer.name} designed and checked it: have another check it`,
            ]
          : []
  const due = { category, designer, checker }
  const missing = Object.entries(due).filter(([, value]) => value === undefined)
  return check({
    kind: worksIndependent,
    subject: subjectOf(id, work),
    demand: faultsFound(
      wrong.length,
      'checks by somebody who is not far enough from the design',
      Object.fromEntries(missing.map(([what]) => [what, given('1', pointerOf('temporaryWorks', id, what), undefined)])),
    ),
    capacity: NONE,
    near,
    found: wrong,
    assumptions: [
      '1: another person of the team; 2: a person not involved in the design and not consulted on it, which names alone do not show; 3: another organisation.',
    ],
    cautions: [CAUTION],
  })
}

const percent = ({ value }: Answer<'1'>): string =>
  value === undefined ? 'open' : `${(value * 100).toFixed(1)}\u00a0%`

function figureChecks(id: string, work: TemporaryWork, near: number): Check[] {
  const at = (...tokens: string[]): string => pointerOf('temporaryWorks', id, ...tokens)
  return Object.entries(work.figures).map(([figure, { what, designed, checked }]) => {
    const demand = figureDifference.show({
      D: designed,
      C: checked ?? given('1', at('figures', figure, 'checked'), undefined),
    })
    const capacity = work.agreeWithin ?? given('1', at('agreeWithin'), undefined)
    return check({
      kind: worksFigures,
      subject: subjectOf(id, work),
      of: figure,
      title: `${worksFigures.title}: ${what}`,
      demand,
      capacity,
      near,
      found: [
        `designer and checker differ by ${percent(demand)} where ${percent(capacity)} is allowed: they find out which of their figures holds, and the other is worked again`,
      ],
      cautions: [CAUTION],
    })
  })
}
