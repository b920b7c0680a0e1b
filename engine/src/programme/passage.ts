import type { Lift, Model } from '../model/index.ts'
import type { StripResult, StripStep } from '../strip/index.ts'

/** What the programme reads of a step of the verified order. */
export type Stepped = Pick<StripStep, 'step' | 'piece' | 'parts' | 'joints' | 'services' | 'from'>

const stepped = ({ step, piece, parts, joints, services, from }: StripStep): Stepped => ({
  step,
  piece,
  parts,
  joints,
  services,
  from,
})

/** One step of the order, as the programme sees it: the way out, and the same way back. */
export interface Passage {
  id: string
  step: Stepped
  name: string
  /** Taken off a piece that already lies outside the shaft. */
  onBay: boolean
  out?: { id: string; lift: Lift }
  back?: { id: string; lift: Lift }
  /** Turning and moving lifts of the piece that no step names, out and back. */
  turns: readonly { id: string; lift: Lift }[]
  turnsBack: readonly { id: string; lift: Lift }[]
  /** It hangs on the hook already from the step before, or still for the step after: no rigging between. */
  hangsBefore: boolean
  hangsAfter: boolean
  /** Joints opened before the hook takes the load, and while it holds it. */
  jointsFree: readonly string[]
  jointsUnderLoad: readonly string[]
  /** Every part of it is scrapped: it does not come back. */
  scrapped: boolean
}

/** The steps of the verified order with their lifts. */
export function passagesOf({ project, instances }: Model, { steps }: StripResult): Passage[] {
  const named = new Set(Object.values(project.steps).flatMap((s) => [s.lift, s.back]))
  const spare = Object.entries(project.lifts).filter(([id]) => !named.has(id))
  const underLoad = project.programme?.work?.underLoad ?? 'last'
  const liftAfter = project.programme?.work?.liftAfter ?? {}
  const lasts = lastStepOfPiece(steps)
  return steps.map((step, k) => {
    const lifts = { out: liftNamed(project.lifts, project.steps[step.step]?.lift), back: backOf(project, step) }
    const own = spare.filter(([id, lift]) => (liftAfter[id] ?? lasts.get(lift.piece)) === step.step)
    const turning = (as: Lift['as']) =>
      own.filter(([, l]) => l.as === as && l.kind !== 'out' && l.kind !== 'back').map(([id, lift]) => ({ id, lift }))
    const held = lifts.out === undefined ? 'none' : underLoad
    const cut = held === 'all' ? 0 : held === 'last' ? Math.max(0, step.joints.length - 1) : step.joints.length
    return {
      id: step.step,
      step: stepped(step),
      name: project.pieces[step.piece]?.name ?? step.piece,
      onBay: step.from !== undefined && step.from !== 'shaft',
      ...(lifts.out === undefined ? {} : { out: lifts.out }),
      ...(lifts.back === undefined ? {} : { back: lifts.back }),
      turns: turning('found'),
      turnsBack: turning('returned'),
      hangsBefore: staysOnHook(project, steps[k - 1], step),
      hangsAfter: staysOnHook(project, step, steps[k + 1]),
      jointsFree: step.joints.slice(0, cut),
      jointsUnderLoad: step.joints.slice(cut),
      scrapped: step.parts.length > 0 && step.parts.every((id) => instances.byId.get(id)?.part.fate === 'scrapped'),
    }
  })
}

const liftNamed = (lifts: Model['project']['lifts'], id: string | undefined) => {
  const lift = id === undefined ? undefined : lifts[id]
  return id === undefined || lift === undefined ? undefined : { id, lift }
}

/** The lift the step names for the way back; else one of the piece that goes back; else the same lift once more. */
function backOf(project: Model['project'], step: StripStep) {
  const typed = project.steps[step.step]
  const named = liftNamed(project.lifts, typed?.back)
  if (named !== undefined) return named
  const found = Object.entries(project.lifts).find(([, l]) => l.piece === step.piece && l.kind === 'back')
  return found === undefined ? liftNamed(project.lifts, typed?.lift) : { id: found[0], lift: found[1] }
}

const lastStepOfPiece = (steps: readonly StripStep[]): ReadonlyMap<string, string> =>
  new Map(steps.map((s) => [s.piece, s.step]))

/** A turn that follows the piece's own lift on the same hook begins with the piece hanging. */
function staysOnHook(
  { steps, lifts }: Model['project'],
  before: StripStep | undefined,
  after: StripStep | undefined,
): boolean {
  if (before === undefined || after === undefined || before.piece !== after.piece) return false
  const [first, second] = [before, after].map(({ step }) => liftNamed(lifts, steps[step]?.lift)?.lift)
  return second?.kind === 'turn' && first?.system === second.system && first.hook === second.hook
}
