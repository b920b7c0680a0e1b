import { ground } from '../engine/src/ground/index.ts'
import { type Derivation, startDerivation, tryChange } from '../engine/src/index.ts'
import { freshMemory } from '../engine/src/working/memory.ts'
import { atMost, type Line, reported, timeAtMost } from './line.ts'
import { timed, total } from './timed.ts'

/** All steps, all loads, all points of the wall of the demo; and one bay moved, to every verdict. */
export function groundLines(demo: unknown): Line[] {
  const from = startDerivation(demo)
  return [...wholeLines(from), ...bayLines(from)]
}

function wholeLines({ derived }: Derivation): Line[] {
  const { stages } = derived
  if (stages === undefined) throw new Error('the demo has no ground')
  const { model, mass, strip, lift } = stages
  const { value, milliseconds } = timed(3, () => ground(model, mass, strip, lift, freshMemory()))
  return [
    reported('steps of the order on the ground', value.steps.length, ''),
    reported(
      '  loads over them',
      value.steps.reduce((n, { loads }) => n + loads.length, 0),
      '',
    ),
    timeAtMost('  all of them on all points of the wall, and every check', milliseconds, 300),
  ]
}

function bayLines(from: Derivation): Line[] {
  const patch = [{ op: 'replace', path: '/bays/B3/centre', value: ['-21.5 m', '27 m'] }] as const
  const { value, milliseconds } = timed(5, () => tryChange(from, patch))
  if (value.derivation === undefined) throw new Error('bay B3 cannot be moved')
  const { computed } = value.derivation.memory
  const fields = computed['ground-field'] ?? 0
  return [
    timeAtMost('one bay moved, to every verdict', milliseconds, 50),
    reported('  results computed again', total(computed), ''),
    ...byStage(computed).map(([stage, n]) => reported(`    in ${stage}`, n, '')),
    atMost('  pressures on the wall of a step among them', computed['ground-wall-load'] ?? 0, '', MOST_STEPS),
    atMost('  settlements of a bay from one thing beside it', computed['ground-beside'] ?? 0, '', MOST_BESIDE),
    atMost('  fields of pressure on the wall among them', fields, '', MOST_FIELDS),
    atMost('  lifts that go past something moved among them', computed['lift-among'] ?? 0, '', MOST_LIFTS),
    atMost('  hangs of pieces among them', computed['lift-hung'] ?? 0, '', 0),
  ]
}

/** Results by their stage: the first word of the family. */
function byStage(computed: Readonly<Record<string, number>>): [stage: string, count: number][] {
  const stages = new Map<string, number>()
  for (const [family, n] of Object.entries(computed)) {
    const stage = family.split('-', 1)[0] as string
    stages.set(stage, (stages.get(stage) ?? 0) + n)
  }
  return [...stages]
}

/** Steps from the one that sets the first piece on the bay; the demo has 30. */
const MOST_STEPS = 27
/** Of the bay moved from every place where something stands, each track and float of a crane by itself, of every other bay from it. */
const MOST_BESIDE = 80

/** What stands on one bay presses on the wall from its new place; nothing else does. */
const MOST_FIELDS = 2
/** Those to and from the bay, and those that pass it nearest of all; the demo has 54. */
const MOST_LIFTS = 12
