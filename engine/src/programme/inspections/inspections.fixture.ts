import { model } from '../../model/index.ts'
import { bolted, boxAt, lidOnTub, stripOf } from '../../strip/strip.fixture.ts'
import type { Check } from '../../working/check.ts'
import { freshMemory } from '../../working/memory.ts'
import { problemText } from '../../working/problem.ts'
import { inspectionChecks } from './checks.ts'

type Raw = Readonly<Record<string, unknown>>

/** Checks of what is on record in a project of nothing else, by id without their beginning. */
export function recordsOf(sections: Raw): ReadonlyMap<string, Check> {
  return checksOf({ schemaVersion: 1, about: { title: 'Small' }, ...sections }, false)
}

/** The same of a lid that comes back on its tub, where the joint between the two is the one given. */
export const returnOf = (joint: Raw, sections: Raw = {}): ReadonlyMap<string, Check> =>
  checksOf(lidOnTub({ joints: { J1: { ...bolted('lid', 'tub'), ...joint } }, ...sections }), true)

function checksOf(document: Raw, returns: boolean): ReadonlyMap<string, Check> {
  const memory = freshMemory()
  const read = model(document, memory)
  if (read.model === undefined) throw new Error(read.problems.map(problemText).join('\n'))
  const { boltUp } = returns ? stripOf(document) : { boltUp: [] }
  const checks = inspectionChecks(read.model, { boltUp }, memory)
  return new Map(checks.map((c) => [c.id.replace(/^programme\./, ''), c]))
}

/** A measure of at most 0.5, read once on 1 March 2033. */
export const measured = (value: number | undefined, more: Raw = {}): Raw => ({
  what: 'Depth of indentation',
  unit: 'mm',
  limit: { atMost: 0.5 },
  readings: value === undefined ? {} : { r1: { value, by: 'inspector', on: '2033-03-01' } },
  ...more,
})

export const opened = (measure: Raw, more: Raw = {}): Raw => ({
  inspections: { B1: { what: 'Raceway of the bearing', kind: 'bearing', measures: { depth: measure }, ...more } },
})

/** A weld that is complete and accepted, save for what is given. */
export const weldOf = (more: Raw = {}): Raw => ({
  welds: {
    W1: {
      what: 'Foot of a lug',
      procedure: { id: 'P-7', qualifiedBy: 'Q-7' },
      welders: { a: { mark: 'W12', qualification: '135 P BW', until: '2033-12-31' } },
      preheat: { atLeast: 120, lowest: 125 },
      finished: '2033-03-01T10:00',
      wait: '24 h',
      tests: { vt: examined({ method: 'VT', on: '2033-03-01T11:00' }), ut: examined({}) },
      ...more,
    },
  },
})

export const examined = (more: Raw): Raw => ({
  method: 'UT',
  level: 'B of ISO 5817',
  asked: '100 %',
  done: '100 %',
  on: '2033-03-02T10:00',
  by: 'examiner',
  qualification: 'level 2',
  result: 'accepted',
  ...more,
})

/** Bolts of the lid that are tightened and looked at, save for what is given. */
export const tightened = (more: Raw = {}): Raw => ({
  boltRecords: {
    R1: {
      joint: 'J1',
      by: 'fitter',
      on: '2033-03-01',
      checkedBy: 'inspector',
      bolts: COUNT,
      lot: 'L-1',
      lubricant: 'oil',
      tool: { what: 'wrench 4', calibratedUntil: '2033-06-30' },
      rechecked: { by: 'fitter', on: '2033-03-02' },
      ...more,
    },
  },
})

const COUNT = 12
/** Least preload needed 200 kN; 0.9 of yield of M36 10.9 is some 691 kN. */
export const BOLTS: Raw = {
  bolts: { thread: 'M36', grade: '10.9', count: COUNT, least: '200 kN', timeOff: '6 min', timeOn: '9 min' },
}
export const sampled = (...preloads: readonly string[]): Raw =>
  tightened({ samples: Object.fromEntries(preloads.map((preload, i) => [`s${i}`, { bolt: i + 1, preload }])) })

/** A rib that is welded to a block by an approved change, save for what is given. */
export const changeOf = (more: Raw = {}): Raw => ({
  materials: { steel: { density: '7850 kg/m3' } },
  parts: { block: boxAt([0, 0, 0]) },
  changes: {
    C1: { kind: 'stiffen', what: 'Rib on the block', status: 'approved', parts: ['block'], joining: 'welded', ...more },
  },
})

const WELDED: Raw = { kind: 'welded', bolts: undefined, timeOff: '1 h', timeOn: '1 h' }
const closedOn = (joint: string): Raw => ({
  programme: {
    start: '2032-01-01',
    dataDate: '2033-04-01',
    calendars: { day: { days: ['Mon'], shifts: [['07:00', '17:00']], hoursPerDay: 9 } },
    progress: { [`S1.close.${joint}`]: { start: '2033-03-01', finish: '2033-03-01' } },
  },
})

const one = (checks: () => ReadonlyMap<string, Check>, id: string) => (): Check => {
  const found = checks().get(id)
  if (found === undefined) throw new Error(`no check ${id} among ${[...checks().keys()].join(', ')}`)
  return found
}

const three = (id: string, pass: Raw, fail: Raw, open: Raw) => ({
  pass: one(() => recordsOf(pass), id),
  fail: one(() => recordsOf(fail), id),
  open: one(() => recordsOf(open), id),
})

const ofReturn = (id: string, joint: Raw, pass: Raw, fail: Raw, open: Raw) => ({
  pass: one(() => returnOf(joint, pass), id),
  fail: one(() => returnOf(joint, fail), id),
  open: one(() => returnOf(joint, open), id),
})

const reused = { decided: { as: 'reused', by: 'machine engineer', on: '2033-03-02' } }

export const inspectionFixtures = {
  'programme.inspection.within': three(
    'inspection.within/B1/depth/most',
    opened(measured(0.5)),
    opened(measured(0.51)),
    opened(measured(undefined)),
  ),
  'programme.inspection.decided': three(
    'inspection.decided/B1',
    opened(measured(0.5), reused),
    opened(measured(0.6), reused),
    opened(measured(0.6)),
  ),
  'programme.weld.qualified': three(
    'weld.qualified/W1',
    weldOf(),
    weldOf({ welders: { a: { mark: 'W12', qualification: '135 P BW', until: '2033-02-28' } } }),
    weldOf({ welders: {} }),
  ),
  'programme.weld.preheat': three(
    'weld.preheat/W1/least',
    weldOf(),
    weldOf({ preheat: { atLeast: 120, lowest: 119 } }),
    weldOf({ preheat: { atLeast: 120 } }),
  ),
  'programme.weld.wait': three('weld.wait/W1', weldOf(), weldOf({ wait: '25 h' }), weldOf({ wait: undefined })),
  'programme.weld.accepted': three(
    'weld.accepted/W1/ut',
    weldOf(),
    weldOf({ tests: { ut: examined({ result: 'rejected' }) } }),
    weldOf({ tests: { ut: examined({ result: undefined }) } }),
  ),
  'programme.weld.recorded': ofReturn('weld.recorded/S1', WELDED, weldOf({ joint: 'J1' }), closedOn('J1'), {}),
  'programme.weld.of-change': three(
    'weld.of-change/C1',
    { ...changeOf(), ...weldOf({ change: 'C1' }) },
    { ...changeOf(), ...weldOf({ change: 'C1', tests: { ut: examined({ result: 'rejected' }) } }) },
    changeOf(),
  ),
  'programme.bolting.recorded': ofReturn('bolting.recorded/S1', BOLTS, tightened(), closedOn('J1'), {}),
  'programme.bolting.tightened': ofReturn(
    'bolting.tightened/R1',
    BOLTS,
    tightened(),
    tightened({ bolts: COUNT - 1 }),
    tightened({ rechecked: undefined }),
  ),
  'programme.bolting.sampled': {
    pass: one(() => returnOf(BOLTS, sampled('210 kN', '640 kN')), 'bolting.sampled/R1/least'),
    fail: one(() => returnOf(BOLTS, sampled('199 kN', '640 kN')), 'bolting.sampled/R1/least'),
    open: one(
      () => returnOf({ bolts: { ...(BOLTS.bolts as Raw), least: undefined } }, sampled('210 kN')),
      'bolting.sampled/R1/least',
    ),
  },
}
