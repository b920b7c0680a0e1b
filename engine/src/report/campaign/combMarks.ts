import { type Line, type Mark, type PaperBox, standFor } from '../drawing.ts'
import type { Campaign } from './campaign.ts'
import type { Field } from './field.ts'
import { stroke, together, upright } from './pens.ts'
import type { Comb } from './teeth.ts'
import { dateWords } from './words.ts'

/** A comb with where it lies and what it is called. */
export interface PlacedComb {
  pointer: string
  words: string
  label: string
  box: PaperBox
  marks: readonly Mark[]
}

const MOST_TEETH = 90

/** Combs over the machine: services off and back on, tests with their hold points. */
export function placedCombs(campaign: Campaign, field: Field): PlacedComb[] {
  const { servicesOff, servicesOn, tests, origin } = campaign
  const { layout, machine } = field
  const { k } = layout.sheet
  const foot = Math.max(layout.collar + 9 * k, machine.top - 5 * k)
  const span = ({ teeth }: Comb): string =>
    `${dateWords(origin, teeth[0]?.at ?? 0)} to ${dateWords(origin, teeth.at(-1)?.at ?? 0)}`
  const holds = tests.teeth.filter((t) => t.long).length
  return [
    combOf(servicesOff, field, foot, {
      pointer: '/services',
      label: `${servicesOff.count} services off`,
      words: `${servicesOff.count} services parted, ${span(servicesOff)}.`,
    }),
    combOf(servicesOn, field, foot, {
      pointer: '/services',
      label: `${servicesOn.count} back on`,
      words: `${servicesOn.count} services reconnected, ${span(servicesOn)}.`,
    }),
    combOf(tests, field, foot - 12 * k, {
      pointer: '/tests',
      label: `${tests.count} tests, ${holds} hold points`,
      words: `${tests.count} tests, ${span(tests)}, ${holds} of them hold points.`,
    }),
  ].flat()
}

interface Called {
  pointer: string
  label: string
  words: string
}

function combOf({ count, teeth }: Comb, { axis, layout }: Field, foot: number, called: Called): PlacedComb[] {
  const { k } = layout.sheet
  const isTests = called.pointer === '/tests'
  const each = Math.max(isTests ? 1 : 2, Math.ceil(count / MOST_TEETH))
  const shown = teeth.filter(({ at, long }, i) => axis.shows(at) && (isTests ? long || i % each === 0 : i % each === 0))
  const [first, last] = [shown[0], shown.at(-1)]
  if (first === undefined || last === undefined) return []
  const ink = isTests ? 'ink' : 'air'
  const lines = (long: boolean): Line[] =>
    shown
      .filter((t) => t.long === long)
      .map((t) =>
        upright(axis.xAt(t.at), foot - (long ? 4.6 : 2.8) * k, foot, stroke(isTests ? 0.3 * k : 0.2 * k, ink)),
      )
  const [left, right] = [axis.xAt(first.at), axis.xAt(last.at)]
  return [
    {
      ...called,
      box: { left: left - 0.3, right: right + 0.3, top: foot - 4.8 * k, bottom: foot },
      marks: [
        standFor(called.pointer, called.words, [
          {
            kind: 'line',
            points: [
              [left, foot],
              [right, foot],
            ],
            stroke: stroke(0.25 * k, ink),
          },
          ...together(lines(false)),
          ...together(lines(true)),
        ]),
      ],
    },
  ]
}
