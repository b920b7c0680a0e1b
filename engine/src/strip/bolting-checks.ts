import type { Joint, Model } from '../model/index.ts'
import { type Answer, found, given, knownOr, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { faultsFound, NONE } from '../working/fault.ts'
import { pointerOf } from '../working/pointer.ts'
import { type Arrangement, arrangementOf, type BoltPlaces } from './bolt-places.ts'
import { flangePull, slipForce, slipResistance } from './bolting.formulas.ts'
import type { Bolting, Bolts } from './bolting.ts'
import { givensIn } from './givens.ts'
import { facesKind, flangeKind, preloadKind } from './kinds.ts'

const BOLTING_CAUTION =
  'The maker’s bolting instruction governs. Tension outside the guards, nobody in line with a bolt; record lot, lubricant, tool and its calibration.'

/** A bolted joint that is closed on the return, with what its bolts come to. */
export interface ClosedJoint {
  id: string
  joint: Joint
  bolts: Bolts
  bolting: Bolting
  places: BoltPlaces
}

/** Checks 77, 78 and 79 of one joint. */
export function boltingChecks(model: Model, closed: ClosedJoint): readonly Check[] {
  return [
    leastCheck(model, closed),
    mostCheck(model, closed),
    ...reuseCheck(model, closed),
    ...flangeChecks(model, closed),
    ...facesChecks(model, closed),
  ]
}

const subjectOf = ({ id, joint }: ClosedJoint) => ({
  pointer: pointerOf('joints', id),
  id,
  name: `${joint.kind} joint of ${joint.between.join(' and ')}`,
})

function leastCheck(model: Model, closed: ClosedJoint): Check {
  const { id, bolts, bolting } = closed
  return check({
    kind: preloadKind,
    of: 'least',
    title: 'Bolts keep the preload that the joint needs',
    subject: subjectOf(closed),
    demand: knownOr(bolts.least, 'N', pointerOf('joints', id, 'bolts', 'least')),
    capacity: bolting.least,
    near: model.near,
    assumptions: ['settling is made good by the check pass; nothing is taken off for it'],
    cautions: [BOLTING_CAUTION],
    found: ['the least preload over the scatter is less than the joint needs: a better method, or more preload'],
  })
}

function mostCheck(model: Model, closed: ClosedJoint): Check {
  const { bolting } = closed
  return check({
    kind: preloadKind,
    of: 'most',
    title: 'Bolts stay below 0.9 of yield while they are tightened',
    subject: subjectOf(closed),
    demand: bolting.highest,
    capacity: bolting.allowed,
    near: model.near,
    assumptions: ['one friction for thread and head; a tensioner puts no torsion into the bolt'],
    cautions: [BOLTING_CAUTION],
    found: ['the highest tension over the scatter passes 0.9 of yield: aim lower, or take a better method'],
  })
}

/** Asked only where the old bolts are to go back in. */
function reuseCheck(model: Model, closed: ClosedJoint): readonly Check[] {
  const { id, bolts, bolting } = closed
  if (bolts.reused !== true) return []
  const { grade } = bolting
  return [
    check({
      kind: preloadKind,
      of: 'reuse',
      title: 'Bolts that are used again are of a grade that allows it',
      subject: subjectOf(closed),
      demand: faultsFound(grade?.onceOnly === undefined ? 0 : 1, 'grades that are used once only', {
        grade: given('1', pointerOf('joints', id, 'bolts', 'grade'), grade === undefined ? undefined : 1),
      }),
      capacity: NONE,
      near: model.near,
      cautions: ['A bolt that went beyond yield, is galled, bent or corroded does not go back, whatever its grade.'],
      found: [`${grade?.onceOnly ?? ''}: take new bolts`],
    }),
  ]
}

/** EN 1993-1-8: partial factor of slip at the ultimate limit state. */
const SLIP_FACTOR = stated('1', 1.25, 'γ_M3 of EN 1993-1-8, Table 2.1 (from memory)')
const LOADS = ['axial', 'shear', 'torque', 'moment', 'friction'] as const
const UNITS = { axial: 'N', shear: 'N', torque: 'N m', moment: 'N m', friction: '1' } as const

/** Asked of machined flanges, which dowels tell, and of every joint for which loads are given. */
function flangeChecks(model: Model, closed: ClosedJoint): readonly Check[] {
  const { id, joint, bolts, bolting, places } = closed
  if (joint.flange === undefined && (bolts.dowels === 0 || bolts.circle === undefined)) return []
  const at = (field: (typeof LOADS)[number]) => pointerOf('joints', id, 'flange', field)
  const load = <K extends (typeof LOADS)[number]>(field: K): Answer<(typeof UNITS)[K]> =>
    knownOr(joint.flange?.[field] as Answer<(typeof UNITS)[K]> | undefined, UNITS[field], at(field))
  const n = given('1', pointerOf('joints', id, 'bolts', 'count'), bolts.count)
  const arms = armsOf(closed, arrangementOf(places))
  const common = {
    kind: flangeKind,
    subject: subjectOf(closed),
    near: model.near,
    cautions: [
      'Loads on a flange are the maker’s or a licensed engineer’s; they change when the machine is stiffened.',
    ],
  }
  return [
    check({
      ...common,
      of: 'opens',
      title: 'The flange does not open',
      demand: flangePull.show({ N: load('axial'), n, M: load('moment'), y: arms('farthest'), S: arms('second') }),
      capacity: bolting.least,
      assumptions: ['faces are rigid; all of the pull comes off the clamping, and bolts keep their least preload'],
      found: ['the pull on the farthest bolt is more than its least preload: the faces part there'],
    }),
    check({
      ...common,
      of: 'slips',
      title: 'The flange does not slip',
      demand: slipForce.show({ T: load('torque'), r: arms('mean'), V: load('shear') }),
      capacity: slipResistance.show({
        mu: load('friction'),
        n,
        F: bolting.least,
        N: load('axial'),
        g: SLIP_FACTOR,
      }),
      assumptions: ['dowels, keys and fits carry nothing'],
      found: ['friction does not hold torque and shear: dowels or a fit have to, by a licensed engineer'],
    }),
  ]
}

/** Arms of the arrangement, resting on what the file says of the places. */
function armsOf({ id, joint, bolts }: ClosedJoint, arrangement: Arrangement) {
  const known = arrangement.second > 0
  const leaves = givensIn([bolts.circle, bolts.arc, bolts.rows, joint.fasteners])
  const inputs = known
    ? Object.fromEntries(leaves.map((leaf) => [leaf.pointer, leaf]))
    : { places: given('m', pointerOf('joints', id, 'fasteners', 'heads'), undefined) }
  const methods = {
    farthest: ['m', 'farthest bolt from the middle of the bolts'],
    mean: ['m', 'mean distance of the bolts from their middle'],
    second: ['m2', 'Σ y² of the bolts about their weakest axis'],
  } as const
  return <K extends keyof Arrangement>(of: K): Answer<(typeof methods)[K][0]> =>
    found({ unit: methods[of][0], value: arrangement[of], method: methods[of][1], inputs, residuals: [] })
}

/** Asked where the maker's limits stand in the file, and of joints with dowels: those are machined to meet. */
function facesChecks(model: Model, closed: ClosedJoint): readonly Check[] {
  const { id, joint, bolts } = closed
  if (joint.faces === undefined && bolts.dowels === 0) return []
  const at = (field: string) => pointerOf('joints', id, 'faces', field)
  const asked = [
    ['flatness', 'flatnessMeasured', 'The faces are flat'],
    ['gap', 'gapMeasured', 'The gap before bolting is small enough'],
  ] as const
  return asked.map(([limit, measured, title]) =>
    check({
      kind: facesKind,
      of: limit,
      title,
      subject: subjectOf(closed),
      demand: knownOr(joint.faces?.[measured], 'm', at(measured)),
      capacity: knownOr(joint.faces?.[limit], 'm', at(limit)),
      near: model.near,
      cautions: ['Bolts do not pull a gap shut: what is not flat is dressed or shimmed before the first pass.'],
      found: ['more than the maker allows: dress, shim or align before a bolt is tightened'],
    }),
  )
}
