import type { Joint } from '../../model/index.ts'
import { type TickGround, type TickPlace, tickPlace, tickSays } from '../../model/intake/index.ts'
import { actsOf } from '../../strip/index.ts'
import { pointerOf } from '../../working/pointer.ts'
import { showQuantity, type UnitSystem } from '../../working/quantity.ts'
import { liftTitle, sheetOf } from '../sheet/liftSheet.ts'
import { subjectOf } from '../sheet/subject.ts'
import { localTime } from '../tables/programmeTables.ts'
import type { OnSiteLine, OnSiteList, OnSiteStages, OnSiteTick } from './onSite.ts'
import type { SiteWork } from './work.ts'

const clockOf = (time: string | undefined): string => time?.replace('T', ' ').slice(0, 16) ?? ''

/** What runs in each shift, with when it began and when it was finished. */
export function shiftLists(stages: OnSiteStages, { shifts }: SiteWork, ground: TickGround): OnSiteList[] {
  const local = (seconds: number): string => clockOf(localTime(stages, seconds))
  return shifts.map(({ calendar, start, end, work }) => ({
    id: `shift-${calendar}`,
    title: `The shift, ${calendar}: ${local(start)} to ${local(end)}`,
    notes: [],
    lines: work.map((entry): OnSiteLine => {
      const tick = (end: 'start' | 'finish', words: string): OnSiteTick => progressTick(ground, entry.id, end, words)
      const isMilestone = entry.start === entry.finish
      return {
        title: entry.name,
        facts: [
          entry.id,
          `${local(entry.from).slice(11)} to ${local(entry.until).slice(11)}`,
          entry.state,
          ...(entry.ends ? ['ends in this shift'] : []),
          ...(entry.waitsFor === undefined ? [] : [`after ${entry.waitsFor}`]),
        ].join(' · '),
        ...(entry.holdPoint === undefined ? {} : { hold: entry.holdPoint }),
        says: saysOf(ground, pointerOf('programme', 'progress', entry.id, 'finish')),
        ticks: [...(isMilestone ? [] : [tick('start', 'Begun')]), tick('finish', 'Finished')],
      }
    }),
  }))
}

function progressTick({ project }: TickGround, activity: string, end: 'start' | 'finish', words: string): OnSiteTick {
  const on = project.programme?.progress[activity]?.[end]
  const at = pointerOf('programme', 'progress', activity, end)
  return { at, words, ...(on === undefined ? {} : { stands: { by: '', on } }) }
}

const saysOf = (ground: TickGround, at: string): string => tickSays(ground, tickPlace(at) as TickPlace) ?? ''

const ACT_WORDS = {
  isolated: 'Isolated',
  locked: 'Locked, tagged',
  discharged: 'Energy let go',
  proved: 'Proved dead',
} as const

/** Every circuit, its acts in their order. */
export function isolationList({ isolations }: SiteWork, ground: TickGround): OnSiteList {
  return {
    id: 'isolations',
    title: 'Isolations, before anything is parted',
    notes: [
      'In this order, by the one whose lock it is. Proved dead on a tester that was proved before and after. Nobody removes another person’s lock.',
    ],
    lines: isolations.flatMap((id): OnSiteLine[] => {
      const isolation = ground.project.isolations[id]
      if (isolation === undefined) return []
      return [
        {
          title: id,
          facts: saysOf(ground, pointerOf('isolations', id, 'signed', 'isolated')),
          says: saysOf(ground, pointerOf('isolations', id, 'signed', 'isolated')),
          hold: 'nothing on it is parted before it is proved dead',
          ticks: actsOf(isolation).map((act) => ({
            at: pointerOf('isolations', id, 'signed', act),
            words: ACT_WORDS[act],
            ...standing(isolation.signed?.[act]),
          })),
        },
      ]
    }),
  }
}

const standing = (signed: { by: string; on: string } | undefined): Pick<OnSiteTick, 'stands'> =>
  signed === undefined ? {} : { stands: { by: signed.by, on: signed.on } }

/** Services to part, step by step in the order in which they come off. */
export function servicesOff({ strip }: OnSiteStages, { off }: SiteWork, ground: TickGround): OnSiteList[] {
  return strip.steps.map(({ step, services }) => ({
    id: `off-${step}`,
    title: `Disconnect, step ${step}: in this order`,
    notes: ['Read the tag at both ends, then part and cap. What is drained is caught.'],
    lines: services.filter((id) => off.has(id)).map((id) => serviceLine(ground, id, 'parted')),
  }))
}

/** Services to join again: the steps backwards, and within each from the last to the first. */
export function servicesOn({ strip }: OnSiteStages, { on }: SiteWork, ground: TickGround): OnSiteList[] {
  return [...strip.steps].reverse().map(({ step, services }) => ({
    id: `on-${step}`,
    title: `Reconnect, step ${step}: in this order`,
    notes: [
      'The reverse of the way off. A second person reads tag and port before pressure or voltage is let in, and ticks with their own name.',
    ],
    lines: [...services]
      .reverse()
      .filter((id) => on.has(id))
      .map((id) => serviceLine(ground, id, 'joined')),
  }))
}

function serviceLine(ground: TickGround, id: string, record: 'parted' | 'joined'): OnSiteLine {
  const service = ground.project.services[id]
  const { tag = id, note } = service ?? {}
  const is = service?.[record]
  const at = (...more: string[]): string => pointerOf('services', id, record, ...more)
  const read = (field: 'tag' | 'port', words: string): OnSiteTick => {
    const text = is !== undefined && field in is ? is[field as keyof typeof is] : undefined
    return { at: at(field), words, ...(text === undefined ? {} : standing(is)) }
  }
  const checkedBy = record === 'joined' ? service?.joined?.checkedBy : undefined
  const says = saysOf(ground, at())
  return {
    title: tag,
    facts: [says.split(' · ').slice(1).join(' · '), ...(note === undefined ? [] : [note])].join(' · '),
    says,
    ticks:
      record === 'parted'
        ? [read('tag', `Tag reads ${tag}`), { at: at(), words: 'Parted, capped', ...standing(is) }]
        : [
            read('tag', `Its tag reads ${tag}`),
            read('port', `Port reads ${tag}`),
            { at: at(), words: 'Joined', ...standing(is) },
            {
              at: at('checkedBy'),
              words: 'Checked by another',
              ...(checkedBy === undefined ? {} : { stands: { by: checkedBy, on: is?.on ?? '' } }),
            },
          ],
  }
}

/** Joints of a step, opened or closed. Bolts that are tightened go on record, any other joint is an activity of the plan. */
export function jointList(
  ground: TickGround,
  step: string,
  ids: readonly string[],
  what: 'opened' | 'closed',
): OnSiteList {
  return {
    id: `${what}-${step}`,
    title: `Joints ${what} at step ${step}`,
    notes:
      what === 'opened'
        ? ['Every fastener off and counted before the piece is lifted.']
        : [
            'Preload, passes and strokes: the bolt-up sheet. Lot, lubricant, tool and what was measured are written into the record of the bolts.',
          ],
    lines: ids.flatMap((id): OnSiteLine[] => {
      const joint = ground.project.joints[id]
      if (joint === undefined) return []
      const isBolted = what === 'closed' && joint.bolts !== undefined
      return [isBolted ? boltLine(ground, id) : jointLine(ground, step, id, what)]
    }),
  }
}

function jointLine(ground: TickGround, step: string, id: string, what: 'opened' | 'closed'): OnSiteLine {
  const { kind, between, bolts, note } = ground.project.joints[id] as Joint
  const words = what === 'opened' ? 'Open, counted' : 'Closed'
  const activity = `${step}.${what === 'opened' ? 'open' : 'close'}.${id}`
  const isPlanned = Object.hasOwn(ground.activities, activity)
  return {
    title: id,
    facts: [
      `${kind}, ${between.join(' to ')}`,
      ...(bolts === undefined ? [] : [`${bolts.count} bolts ${bolts.thread} ${bolts.grade}`]),
      ...(note === undefined ? [] : [note]),
    ].join(' · '),
    says: isPlanned ? saysOf(ground, pointerOf('programme', 'progress', activity, 'finish')) : '',
    ticks: [isPlanned ? progressTick(ground, activity, 'finish', words) : { at: `sheet/${step}/${id}/${what}`, words }],
  }
}

/** All bolts of a joint through the last pass, who looked at them, and that they were looked at again after they have settled. */
function boltLine(ground: TickGround, id: string): OnSiteLine {
  const { bolts, note } = ground.project.joints[id] as Joint
  const at = (...more: string[]): string => pointerOf('joints', id, 'tightened', ...more)
  const says = saysOf(ground, at())
  const record = Object.values(ground.project.boltRecords).findLast((r) => r.joint === id)
  const isWhole = record !== undefined && record.bolts === bolts?.count
  const part = record === undefined || isWhole ? [] : [`on record: ${record.bolts} bolts, ${record.by}, ${record.on}`]
  const checkedBy = record?.checkedBy
  return {
    title: id,
    facts: [says, ...part, ...(note === undefined ? [] : [note])].join(' · '),
    says,
    ticks: [
      { at: at(), words: `All ${bolts?.count} tightened, last pass`, ...standing(isWhole ? record : undefined) },
      {
        at: at('checkedBy'),
        words: 'Checked by another',
        ...(checkedBy === undefined ? {} : { stands: { by: checkedBy, on: '' } }),
      },
      { at: at('rechecked'), words: 'Looked at again, settled', ...standing(record?.rechecked) },
    ],
  }
}

/** The steps of a lift on the day with their hold points. */
export function liftList(
  stages: OnSiteStages,
  lift: string,
  { units, ground }: { units: UnitSystem; ground: TickGround },
): OnSiteList | undefined {
  const subject = subjectOf(stages, lift)
  if (subject === undefined) return undefined
  const sheet = sheetOf(subject, { units })
  const { outcome, piece } = subject
  return {
    id: `lift-${lift}`,
    title: `Lift ${lift}: ${liftTitle(piece.name, subject.lift.kind)}`,
    notes: [
      `Hook load ${showQuantity(outcome.hookLoad.value, 'kg', units)}; stops at a gust of ${showQuantity(outcome.allowableWind.value, 'm/s', units)} at height. ${sheet.summary}`,
      sheet.day.pointOfNoReturn,
      'A tick goes into the lift log: which step, who, when. A hold point is signed on the sheet or in the project, never here.',
    ],
    lines: sheet.steps.map(({ words, hold }, i) => {
      const at = pointerOf('lifts', lift, 'steps', `${i + 1}`)
      const says = saysOf(ground, at)
      const logged = Object.values(ground.project.liftLog).find(
        (e) => e.lift === lift && e.step === i + 1 && e.what === says,
      )
      return {
        title: `${i + 1}`,
        facts: words,
        ...(hold === undefined ? {} : { hold }),
        says,
        ticks: [{ at, words: 'Done', ...standing(logged) }],
      }
    }),
  }
}

/** Tests of the shift: what is read goes into the register of tests, not on a tick. */
export function testList({ model: { project } }: OnSiteStages, { tests }: SiteWork): OnSiteList {
  return {
    id: 'tests',
    title: 'Tests',
    notes: ['Readings are written into the register of tests with who read and who witnessed.'],
    lines: tests.flatMap((id): OnSiteLine[] => {
      const test = project.tests[id]
      if (test === undefined) return []
      return [
        {
          title: `${id} ${test.system}: ${test.test}`,
          facts: [test.procedure, test.passLimit && `limit: ${test.passLimit}`].filter(Boolean).join(' · '),
          ...(test.holdPoint ? { hold: test.witness ?? 'witnessed' } : {}),
          says: '',
          ticks: [{ at: `sheet/tests/${id}`, words: 'Done, readings written' }],
        },
      ]
    }),
  }
}
