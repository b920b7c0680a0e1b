import type { CheckKind } from '../../working/check.ts'
import type { Source } from '../../working/formula.ts'

const kind = (
  id: string,
  title: string,
  source: Source,
  practice: readonly number[],
  decidedBy: string,
): CheckKind => ({ id: `programme.${id}`, title, stage: 'programme', source, practice, decidedBy })

const WELDING = 'welding engineer'

export const measureWithin = kind(
  'inspection.within',
  'What was measured is accepted',
  { basis: 'common practice', text: 'limits of drawing, maker or standard, as the project states them' },
  [],
  'machine maker',
)

export const partDecided = kind(
  'inspection.decided',
  'An opened part is decided on: reused, reworked or replaced',
  { basis: 'common practice', text: 'common practice, no source' },
  [],
  'machine engineer',
)

export const weldQualified = kind(
  'weld.qualified',
  'Weld laid by a qualified procedure, by welders qualified on that day',
  { basis: 'memory', text: 'ISO 15614-1 for the procedure, ISO 9606-1 for the welder; AWS D1.1' },
  [80],
  WELDING,
)

export const weldPreheated = kind(
  'weld.preheat',
  'Preheat and interpass temperature of a weld',
  { basis: 'memory', text: 'EN 1011-2, ISO 13916; the figures are those of the procedure' },
  [80],
  WELDING,
)

export const weldWaited = kind(
  'weld.wait',
  'A weld has stood long enough before it is examined',
  { basis: 'memory', text: 'EN 1090-2 table of least hold times; the time is the procedure’s own' },
  [80],
  WELDING,
)

export const weldAccepted = kind(
  'weld.accepted',
  'A weld is examined to the extent asked for, and accepted at its quality level',
  {
    basis: 'memory',
    text: 'ISO 5817 quality levels; ISO 17637, ISO 17638, ISO 17640 by method; ISO 9712 for who examines',
  },
  [80],
  WELDING,
)

export const weldsRecorded = kind(
  'weld.recorded',
  'Every weld that the return lays has its record',
  { basis: 'derived', text: 'joints that the step closes by welding, against those that a record names' },
  [80],
  WELDING,
)

export const weldOfChange = kind(
  'weld.of-change',
  'What a change welds to a part is on record, examined and accepted',
  { basis: 'derived', text: 'changes that the project says are welded, against the welds that name them' },
  [80],
  WELDING,
)

export const boltsRecorded = kind(
  'bolting.recorded',
  'Every bolted joint that the return closes has its record',
  { basis: 'derived', text: 'joints that the step closes with bolts, against those that a record names' },
  [77],
  'machine engineer',
)

export const boltsTightened = kind(
  'bolting.tightened',
  'All bolts of a joint are tightened, looked at by another, and again after they have settled',
  {
    basis: 'common practice',
    text: 'lot, lubricant, tool and its calibration, second check after settling: common practice, no source',
  },
  [77],
  'machine engineer',
)

export const boltsSampled = kind(
  'bolting.sampled',
  'Preload of bolts as measured lies between what the joint needs and 0.9 of yield',
  { basis: 'memory', text: 'VDI 2230 Part 1; the preload needed is the project’s own' },
  [77],
  'machine engineer',
)

export const inspectionKinds: readonly CheckKind[] = [
  measureWithin,
  partDecided,
  weldQualified,
  weldPreheated,
  weldWaited,
  weldAccepted,
  weldsRecorded,
  weldOfChange,
  boltsRecorded,
  boltsTightened,
  boltsSampled,
]
