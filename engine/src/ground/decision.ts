import type { Ground } from '../model/index.ts'
import { given } from '../working/answer.ts'
import { type Check, check, type Resting } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { SOIL } from './caution.ts'
import { decision as kind } from './kinds.ts'

/** What the responsible ground engineer or another licensed person decides; the tool never fills one in. */
export const DECISIONS = {
  G1: 'layer boundaries, unit weights, strengths, stiffness and permeability, each low, best and high',
  G2: 'design water levels of each aquifer at each stage: normal, flood, pumps failed',
  G3: 'state of the earth pressure, and the share of it that is unbalanced',
  G4: 'which resisting terms count: wall friction, side shear, adhesion of the plug, soil inside the toe',
  G5: 'required factors or partial factors, which code and which national annex',
  G6: 'allowable pressure of each bay and pad, limits of settlement and tilt',
  G7: 'ring: effective thickness after tolerances, stiffness cracked and in creep, opening of the eye and its frame',
  G8: 'treated block: extent, strength, permeability, acceptance test, who releases the cut',
  G9: 'order and trigger levels of monitoring, and what happens at each',
  G10: 'cradle strength, shell check by the machine maker, props at each removal',
} as const

export type DecisionId = keyof typeof DECISIONS

/** One decision, as recorded or as still missing. */
export interface Decision {
  id: DecisionId
  what: string
  pointer: string
  decidedBy?: string
  on?: string
  value?: string
  withdrawn?: string
  /** Named, dated and with a value. */
  recorded: boolean
}

/** The ten decisions, each with what the project says of it. */
export function decisionsOf(ground: Ground | undefined): Decision[] {
  return (Object.keys(DECISIONS) as DecisionId[]).map((id) => {
    const { decidedBy, on, value, withdrawn } = ground?.decisions[id] ?? {}
    const recorded = decidedBy !== undefined && on !== undefined && value !== undefined
    return {
      id,
      what: DECISIONS[id],
      pointer: pointerOf('ground', 'decisions', id),
      decidedBy,
      on,
      value,
      withdrawn,
      recorded,
    }
  })
}

/** What a check rests on: whose decisions, by whom and when. While one is missing or withdrawn, the check does not pass. */
export function restingOn(ground: Ground | undefined, ...ids: readonly DecisionId[]): Resting {
  const all = decisionsOf(ground)
  const on = ids.map((id) => all.find((d) => d.id === id) as Decision)
  const said = on.map(({ id, recorded, decidedBy, on: day, withdrawn }) => {
    if (withdrawn !== undefined) return `${id} (withdrawn)`
    return recorded ? `${id} (${decidedBy}, ${day})` : `${id} (not recorded)`
  })
  return {
    words: `Rests on ${said.join(', ')}; not a design of the shaft.`,
    undecided: ground === undefined ? [] : on.flatMap(undecidedOf),
  }
}

function undecidedOf({ pointer, withdrawn, ...said }: Decision): string[] {
  if (withdrawn !== undefined) return [`${pointer} is withdrawn`]
  const missing = (['decidedBy', 'on', 'value'] as const).filter((field) => said[field] === undefined)
  return missing.length === 3 ? [`${pointer} is not given`] : missing.map((field) => `${pointer}/${field} is not given`)
}

/** A decision that is missing is open; one that was withdrawn fails. */
export function decisionChecks(ground: Ground, near: number): Check[] {
  return decisionsOf(ground).map(({ id, what, pointer, value, recorded, withdrawn }) =>
    check({
      kind,
      subject: { pointer, id, name: what },
      title: `${id}: ${what}`,
      demand: given('1', pointer, withdrawn !== undefined ? 1 : recorded ? 0 : undefined),
      capacity: given('1', pointer, 0),
      near,
      found: withdrawn === undefined ? [] : [`withdrawn: ${withdrawn}`],
      assumptions: value === undefined ? [] : [`Decided: ${value}`],
      cautions: [SOIL],
    }),
  )
}
