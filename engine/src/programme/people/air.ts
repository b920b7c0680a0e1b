import type { BelowGround } from '../../model/index.ts'
import { type Answer, found, given, knownOr, stated, sumOf } from '../../working/answer.ts'
import { type Check, check } from '../../working/check.ts'
import { pointerOf } from '../../working/pointer.ts'
import { readQuantity } from '../../working/quantity.ts'
import { type Below, CAUTION, nothingEntered, subjectAt } from './below.ts'
import { mostAtOnce, staysOf } from './board.ts'
import { airEnough, airForAll } from './kinds.ts'
import { airNeeded } from './people.formulas.ts'

type Air = BelowGround['air'][string]

const PER_PERSON = stated(
  'm3/s',
  readQuantity('200 ft3/min', 'm3/s') as number,
  '200 ft³/min for each person: 29 CFR 1926.800(k), excerpt read',
)
const PER_POWER = stated(
  'm3/J',
  readQuantity('100 ft3/min/hp', 'm3/J') as number,
  '100 ft³/min for each brake horsepower: 29 CFR 1926.800(k)(10)(ii), excerpt read',
)

/** Check 100: the air of each place against its people and diesels, and the board against all that air is planned for. */
export function airChecks(below: Below): Check[] {
  const places = Object.entries(below.people?.air ?? {})
  if (places.length === 0) return [nothingEntered(airEnough, below, 'air', 'Fresh air below ground')]
  return [...places.map(([id, air]) => airCheck(below, id, air)), ...boardAgainstAir(below, places)]
}

const peopleOf = (id: string, { people }: Air): Answer<'1'> =>
  given('1', pointerOf('belowGround', 'air', id, 'people'), people)

function airCheck(below: Below, id: string, air: Air): Check {
  const { airPerPerson = PER_PERSON, airPerPower = PER_POWER } = below.people?.rules ?? {}
  const at = (...tokens: string[]): string => pointerOf('belowGround', 'air', id, ...tokens)
  const power = sumOf(
    'power of the diesels',
    'W',
    Object.entries(air.diesels).map(([d, { what, power: of }]) => ({
      label: what,
      answer: knownOr(of, 'W', at('diesels', d, 'power')),
    })),
  )
  return check({
    kind: airEnough,
    subject: subjectAt(air.what, 'air', id),
    title: `${airEnough.title}: ${air.what}`,
    demand: airNeeded.show({ n: peopleOf(id, air), q: airPerPerson, P: power, d: airPerPower }),
    capacity: knownOr(air.supplied, 'm3/s', at('supplied')),
    near: below.model.near,
    assumptions: [
      ...(air.on === undefined ? [] : [`measured on ${air.on}${air.by === undefined ? '' : ` by ${air.by}`}`]),
      ...(Object.keys(air.diesels).length === 0 ? ['no diesel below ground'] : []),
    ],
    cautions: [CAUTION],
  })
}

function boardAgainstAir(below: Below, places: readonly (readonly [string, Air])[]): Check[] {
  const board = below.people?.board ?? {}
  if (Object.keys(board).length === 0) return []
  return [
    check({
      kind: airForAll,
      subject: subjectAt('Board of those below ground', 'board'),
      demand: found({
        unit: '1',
        value: mostAtOnce(staysOf(below, board)),
        method: 'the most lines of the board at one time',
        inputs: { lines: given('1', '/belowGround/board', Object.keys(board).length) },
        residuals: [],
      }),
      capacity: sumOf(
        'people that air is planned for',
        '1',
        places.map(([id, air]) => ({ label: air.what, answer: peopleOf(id, air) })),
      ),
      near: 1,
      cautions: [CAUTION],
    }),
  ]
}
