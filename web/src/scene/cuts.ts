import type { Stages } from '@shieldwright/engine'
import { idsMeant } from '@shieldwright/engine/model/index.ts'
import { pointerOf } from '@shieldwright/engine/working/pointer.ts'

/** What stands in the register of a service: nothing yet, parted, or joined again. */
export type ServiceState = 'open' | 'disconnected' | 'reconnected'

/** A service as it crosses a cut. */
export interface CutService {
  id: string
  tag: string
  state: ServiceState
  /** What it is, and between what. */
  words: string
}

/** Where the machine comes apart: a step of the order with what it parts, or a joint with what runs from one side to the other. */
export interface Cut {
  pointer: string
  kind: 'step' | 'joint'
  name: string
  services: readonly CutService[]
}

/** Every cut that services cross: steps in their order, then joints. */
export function cutsOf({ model, strip }: Stages): Cut[] {
  const { project, instances } = model
  const ends = Object.entries(project.services).map(([id, { from, to }]) => ({
    id,
    from: idsMeant(instances, from),
    to: idsMeant(instances, to),
  }))
  const described = (ids: readonly string[]): CutService[] => ids.map((id) => serviceOf(model.project, id))
  const steps = strip.steps.map(
    (s): Cut => ({
      pointer: pointerOf('steps', s.step),
      kind: 'step',
      name: project.pieces[s.piece]?.name ?? s.piece,
      services: described(s.services),
    }),
  )
  const joints = Object.entries(project.joints).map(([id, { between }]): Cut => {
    const [a, b] = between.map((side) => new Set(idsMeant(instances, side))) as [Set<string>, Set<string>]
    const lies = (end: readonly string[], side: ReadonlySet<string>): boolean => end.some((i) => side.has(i))
    const across = ends.filter((s) => (lies(s.from, a) && lies(s.to, b)) || (lies(s.from, b) && lies(s.to, a)))
    const names = between.map((side) => project.parts[side]?.name ?? instances.byId.get(side)?.part.name ?? side)
    return {
      pointer: pointerOf('joints', id),
      kind: 'joint',
      name: `${id}, ${names.join(' to ')}`,
      services: described(across.map((s) => s.id)),
    }
  })
  return [...steps, ...joints].filter((cut) => cut.services.length > 0)
}

type Project = Stages['model']['project']

function serviceOf({ services }: Project, id: string): CutService {
  const { tag, kind, medium, from, to, parted, joined } = services[id] as Project['services'][string]
  const state = joined !== undefined ? 'reconnected' : parted !== undefined ? 'disconnected' : 'open'
  return { id, tag: tag ?? id, state, words: `${kind}, ${medium}, ${from} to ${to}` }
}
