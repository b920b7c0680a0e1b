import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import { type Answer, GRAVITY, given, knownOr, leastOf, stated, sumOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { heldByBolts, restOnBolts } from './joint.formulas.ts'
import type { JointSides } from './joint.ts'
import { loadPathKind } from './kinds.ts'
import { stepSubject } from './step-checks.ts'
import type { VerifiedStep } from './verify.ts'

const CAUTION =
  'Slack, preload let go and a hook that is not plumb put more on the last bolts than equilibrium says. The order of release, and what each bolt may hold, are for a licensed engineer; nobody stands where the piece would go.'

/** Check 16: while the joints of a piece are half released, the bolts left hold what hook and jacks do not. Undefined where nothing bolted is opened. */
export function loadPathCheck(model: Model, mass: MassResult, step: VerifiedStep, memory: Memory): Check | undefined {
  const weight = massOf(mass, step)
  const { order } = step.placed
  return memory.once(`strip-loadPath/${order.step}`, [step, weight, model.near, model.project.pieces], () =>
    madeFrom(model, step, weight),
  )
}

function madeFrom(model: Model, step: VerifiedStep, m: Answer<'kg'>): Check | undefined {
  const bolted = step.release.joints.filter(({ joint }) => joint.bolts !== undefined)
  if (bolted.length === 0) return undefined
  const shares = bolted.map(({ id, joint }) => ({
    label: id,
    answer: knownOr(joint.halfway?.hook, '1', at(id, 'hook')),
  }))
  const jacks = bolted.flatMap(({ id, joint }) => {
    const carried = joint.halfway?.jacks
    return carried === undefined ? [] : [{ label: id, answer: carried }]
  })
  return check({
    kind: loadPathKind,
    subject: stepSubject(model, step),
    demand: restOnBolts.show({
      m,
      g: GRAVITY,
      h: leastOf('least share on the hook', '1', shares),
      P: jacks.length === 0 ? stated('N', 0, 'no jack or prop is named') : sumOf('jacks and props', 'N', jacks),
    }),
    capacity: sumOf(
      'bolts left',
      'N',
      bolted.map((joint) => ({ label: joint.id, answer: heldBy(joint) })),
    ),
    near: model.near,
    assumptions: ['the bolts left share the load alike; of several joints the least share on the hook is taken'],
    cautions: [CAUTION],
    found: ['the bolts left do not hold what the hook leaves to them: take more on the hook, or leave more bolts in'],
  })
}

const at = (id: string, field: string): string => pointerOf('joints', id, 'halfway', field)

function heldBy({ id, joint }: JointSides): Answer<'N'> {
  const { halfway } = joint
  return heldByBolts.show({
    n: given('1', at(id, 'left'), halfway?.left),
    R: knownOr(halfway?.resistance, 'N', at(id, 'resistance')),
  })
}

/** Upper design mass of what moves. */
function massOf(mass: MassResult, { placed }: VerifiedStep): Answer<'kg'> {
  const piece = mass.pieces[placed.order.piece]
  return (piece?.found ?? mass.ofSet([...placed.moving.keys()], 'found')).design
}
