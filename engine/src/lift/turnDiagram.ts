import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import type { StripResult } from '../strip/index.ts'
import { freshMemory } from '../working/memory.ts'
import { pieceHull } from './bodies.ts'
import { pickOf } from './pick.ts'
import { peakOf } from './stretches.ts'
import { restraintAt } from './turnBox.ts'
import { leanOf } from './turnChecks.ts'
import { type TwoHooks, turningPoints } from './turning.ts'
import { type Turning, turningOf } from './turningOf.ts'

/** What happens at a critical angle of a turn. */
export type TurnEvent =
  | 'over centre, tail slack'
  | 'main slack'
  | 'points over one another'
  | 'lines plumb on one side of this'
  | 'most on main'
  | 'most on tail'
  | 'most out of plumb'

/** What a diagram of a turn marks: critical angles with the pull they mean, N, and ranges that no pair of pulls holds. */
export interface TurnDiagram {
  marks: readonly { event: TurnEvent; angle: number; pull?: number }[]
  /** With the greatest force on the tail points that would hold it there, N. */
  lost: readonly { from: number; to: number; restraint: number }[]
}

/** Critical angles and ranges of a turn; nothing where it is open or there is none. */
export function turnDiagram(model: Model, mass: MassResult, strip: StripResult, id: string): TurnDiagram {
  if (model.project.lifts[id]?.kind !== 'turn') return { marks: [], lost: [] }
  const pick = pickOf(model, mass, strip, id)
  const turning = turningOf(pick, pieceHull(model, mass, pick.lift.piece, freshMemory()))
  return 'open' in turning ? { marks: [], lost: [] } : diagramOf(turning)
}

/** The same of a turn that is worked already. */
export function diagramOf({ geometry, planned, angles, course }: Turning): TurnDiagram {
  const at = (event: TurnEvent, list: readonly number[]) => list.map((angle) => ({ event, angle }))
  const peak = (event: TurnEvent, of: 'main' | 'tail') => {
    const most = peakOf(geometry, planned.course, (held) => held[of])
    return most === undefined ? [] : [{ event, angle: most.held.angle, pull: most.value }]
  }
  const lean = peakOf(geometry, planned.course, leanOf)
  const [from, to] = [course[0]?.angle ?? 0, course.at(-1)?.angle ?? 0]
  const known = new Set([...angles.tailSlack, ...angles.mainSlack, ...angles.coincide])
  const plumb = turningPoints(geometry, from, to).filter((a) => !known.has(a) && becomesPlumb(planned.course.marks, a))
  return {
    marks: [
      ...at('over centre, tail slack', angles.tailSlack),
      ...at('main slack', angles.mainSlack),
      ...at('points over one another', angles.coincide),
      ...at('lines plumb on one side of this', plumb),
      ...peak('most on main', 'main'),
      ...peak('most on tail', 'tail'),
      ...(lean === undefined || lean.value < PLUMB
        ? []
        : [{ event: 'most out of plumb' as const, angle: lean.held.angle }]),
    ].sort((a, b) => (to < from ? b.angle - a.angle : a.angle - b.angle)),
    lost: planned.course.stretches
      .filter((s) => s.holding === 'neither')
      .map((s) => ({
        from: s.from,
        to: s.to,
        restraint: Math.max(restraintAt(geometry, s.from), restraintAt(geometry, s.to)),
      })),
  }
}

const PLUMB = 1e-6

/** Whether the lines hang plumb on one side of an angle and lean on the other. */
function becomesPlumb(marks: readonly { angle: number; held: TwoHooks | undefined }[], angle: number): boolean {
  const before = marks.filter((m) => m.angle < angle - PLUMB).at(-1)?.held
  const after = marks.find((m) => m.angle > angle + PLUMB)?.held
  return before !== undefined && after !== undefined && leanOf(before) > PLUMB !== leanOf(after) > PLUMB
}
