import type { CheckKind } from '../../working/check.ts'
import type { Source } from '../../working/formula.ts'

const SAFETY = 'safety lead'

const kind = (id: string, title: string, source: Source, practice: number, decidedBy = SAFETY): CheckKind => ({
  id: `programme.people.${id}`,
  title,
  stage: 'programme',
  source,
  practice: [practice],
  decidedBy,
})

export const headCounted = kind(
  'head-count',
  'The head count below ground agrees with the board',
  {
    basis: 'read',
    text: '29 CFR 1926.800(c): check-in and check-out (read); an equal count before a lift is practice',
  },
  98,
  'superintendent',
)

export const gasBelow = kind(
  'gas',
  'Gas is within its limits',
  {
    basis: 'read',
    text: '29 CFR 1926.800(j)(1)(ix): at 20 % of the lower explosive limit power is cut off, pumps and ventilation excepted (excerpt read); oxygen by 1926.800(j)(1), the other gases by 1926.55, from memory',
  },
  99,
)

export const gasTested = kind(
  'gas-tested',
  'Oxygen, flammable gas, carbon monoxide and hydrogen sulphide are read, and in time',
  {
    basis: 'read',
    text: '29 CFR 1926.800(j)(2)(i) (excerpt read): where gassy, at the beginning and at the midpoint of each shift; how often here is the project’s own',
  },
  99,
)

export const airEnough = kind(
  'air',
  'Fresh air for the people and the diesels below ground',
  {
    basis: 'read',
    text: '29 CFR 1926.800(k): 200 cubic feet a minute for each person and 100 for each brake horsepower beside it (excerpt read)',
  },
  100,
)

export const airForAll = kind(
  'air-for-all',
  'No more people below ground at one time than air is provided for',
  { basis: 'derived', text: 'the most on the board at one time, against the people that the air is planned for' },
  100,
)

export const peopleKinds: readonly CheckKind[] = [headCounted, gasBelow, gasTested, airEnough, airForAll]
