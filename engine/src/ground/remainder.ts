import type { MassResult, SetMass } from '../mass/index.ts'
import type { StepPlaces } from '../strip/index.ts'
import { type Answer, sumOf } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { jointCentre } from './cradle.formulas.ts'

/** What stands in one state, as far as its cradle feels it. Frame: site. */
export interface Resting {
  /** Upper mass. */
  design: Answer<'kg'>
  /** Mass that the centre of gravity belongs to. */
  net: Answer<'kg'>
  x: Answer<'m'>
  y: Answer<'m'>
}

/** What is left in the shaft at one time. */
export interface Remainder {
  parts: readonly string[]
  found: Resting
  returned: Resting
}

const STATES = ['found', 'returned'] as const

const restingOf = ({ design, net, cogSiteWorking: [x, y] }: SetMass): Resting => ({ design, net, x, y })

/** Two that stand together. */
function joined(title: string, a: Resting, b: Resting): Resting {
  const sum = (pick: (r: Resting) => Answer<'kg'>) =>
    sumOf(title, 'kg', [
      { label: 'what stays', answer: pick(a) },
      { label: 'what goes next', answer: pick(b) },
    ])
  const centre = (pick: (r: Resting) => Answer<'m'>) =>
    jointCentre.show({ m_1: a.net, x_1: pick(a), m_2: b.net, x_2: pick(b) })
  return { design: sum((r) => r.design), net: sum((r) => r.net), x: centre((r) => r.x), y: centre((r) => r.y) }
}

/**
 * What is in the shaft before each step, and at last after all of them.
 *
 * Worked from the end: what stays to the last is rolled up once, and each step adds back what it takes, so that a new mass
 * is felt only where it still stands.
 */
export function remaindersOf(
  mass: MassResult,
  places: readonly StepPlaces[],
  all: readonly string[],
  memory: Memory,
): Remainder[] {
  const last = places[places.length - 1]?.step.remaining ?? all
  const [found, returned] = STATES.map((state) => mass.ofSet(last, state)) as [SetMass, SetMass]
  let left: Remainder = memory.once('ground-remainder/last', [last, found, returned], () => ({
    parts: last,
    found: restingOf(found),
    returned: restingOf(returned),
  }))
  const before = [left]
  for (const { step, below } of [...places].reverse()) {
    left = addedBack(mass, step.step, below, left, memory)
    before.unshift(left)
  }
  return before
}

function addedBack(
  mass: MassResult,
  step: string,
  below: readonly string[],
  after: Remainder,
  memory: Memory,
): Remainder {
  if (below.length === after.parts.length) return after
  const gone = memory.once(`ground-gone/${step}`, [below, after.parts], () => {
    const stays = new Set(after.parts)
    return below.filter((p) => !stays.has(p))
  })
  const [found, returned] = STATES.map((state) => mass.ofSet(gone, state)) as [SetMass, SetMass]
  return memory.once(`ground-remainder/${step}`, [below, after, found, returned], () => ({
    parts: below,
    found: joined(`in the shaft before ${step}`, after.found, restingOf(found)),
    returned: joined(`in the shaft before ${step}`, after.returned, restingOf(returned)),
  }))
}
