import type { CheckKind } from '../../working/check.ts'
import type { Source } from '../../working/formula.ts'

const kind = (
  id: string,
  title: string,
  source: Source,
  practice: readonly number[],
  decidedBy: string,
): CheckKind => ({
  id: `programme.test.${id}`,
  title,
  stage: 'programme',
  source,
  practice,
  decidedBy,
})

const maker: Source = { basis: 'common practice', text: "maker's limits, as the project states them" }

/** What a reading is held against its limit under, by what the test proves. */
export const readingKinds = {
  electrical: kind(
    'electrical',
    'Insulation and protective continuity, as read',
    {
      basis: 'memory',
      text: 'IEC 60204-1:2016 clause 18: at least 1 MΩ at 500 V d.c., continuity of the protective conductor; IEEE 43; the limit is the project’s own',
    },
    [81],
    'electrical authorised person',
  ),
  oil: kind(
    'oil',
    'Oil as clean as asked for',
    { basis: 'memory', text: 'ISO 4406, code by the maker' },
    [82],
    'machine maker',
  ),
  seals: kind('seals', 'Seal chamber within its limit', maker, [83], 'machine maker'),
  lock: kind(
    'lock',
    'Air lock within its limit, after refitting',
    { basis: 'read', text: 'EN 12110-1, scope only was read; pressures by it and by local law' },
    [84],
    'third-party inspector',
  ),
  functions: kind(
    'functions',
    'Every safety function and interlock acted',
    { basis: 'read', text: 'EN 16191, scope only was read' },
    [85],
    'machine maker',
  ),
  run: kind(
    'run',
    'Run within its band',
    { basis: 'memory', text: "maker's limits; ISO 20816-3 bands" },
    [86],
    'machine maker',
  ),
  other: kind('other', 'Test within its limit', maker, [], 'machine engineer'),
} as const

export const testWitnessed = kind(
  'witnessed',
  'A hold point is witnessed by another than who tested',
  { basis: 'common practice', text: 'common practice, no source' },
  [84, 86],
  'inspector',
)

export const testInOrder = kind(
  'order',
  'No test before what it rests on',
  { basis: 'derived', text: 'graph of predecessors: each has passed, on the same day or before' },
  [87],
  'planner',
)

export const testKinds: readonly CheckKind[] = [...Object.values(readingKinds), testWitnessed, testInOrder]
