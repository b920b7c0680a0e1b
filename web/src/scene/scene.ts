import type { Stages } from '@shieldwright/engine'
import { poseInSite } from '@shieldwright/engine/model/index.ts'
import { AT_REST, place, type Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import { pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { type Cut, cutsOf } from './cuts.ts'
import { type Passage, passagesOf } from './passage.ts'
import { type RigFrame, type RigUse, rigFrames, rigItems, rigUse } from './rig.ts'
import type { SceneItem, SceneLabel } from './sceneItem.ts'
import { solidShapes } from './solids.ts'
import { surroundingsOf } from './surroundings.ts'

export interface SceneStep {
  step: string
  piece: string
  name: string
  parts: readonly string[]
  passage: Passage
  stays: boolean
  lift: string | undefined
  back: string | undefined
  /** How it hangs on the way out and on the way back. */
  rig: RigUse | undefined
  rigBack: RigUse | undefined
  /** Centre of gravity as found, site frame. */
  cog: Vec3
  /** What it strikes: parts and things in the way. */
  struck: readonly string[]
}

/** A hose, cable or pipe between two parts, until the step that parts it; an end outside the machine is not known. */
export interface SceneService {
  id: string
  from: string | undefined
  to: string | undefined
  parted: number | undefined
}

export interface Scene {
  items: readonly SceneItem[]
  steps: readonly SceneStep[]
  labels: readonly SceneLabel[]
  systems: Readonly<Record<string, RigFrame>>
  services: readonly SceneService[]
  cuts: readonly Cut[]
  /** Parts by piece, for what stands for a piece or a lift. */
  pieces: Readonly<Record<string, { name: string; parts: readonly string[] }>>
  lifts: Readonly<Record<string, string>>
}

/** What stands where, for drawing: ground, shaft, machine, lifting systems, and the ways of the order. Plain data, site frame, SI. */
export function sceneOf(stages: Stages): Scene {
  const { project } = stages.model
  const around = surroundingsOf(stages)
  return {
    items: [...around.items, ...rigItems(project), ...partItems(stages)],
    steps: stepsOf(stages),
    labels: around.labels,
    systems: rigFrames(project),
    services: servicesOf(stages),
    cuts: cutsOf(stages),
    pieces: Object.fromEntries(
      Object.entries(stages.mass.pieces).map(([id, m]) => [
        id,
        { name: project.pieces[id]?.name ?? id, parts: m.found.parts },
      ]),
    ),
    lifts: Object.fromEntries(Object.entries(project.lifts).map(([id, l]) => [id, l.piece])),
  }
}

/** Greys by group: the look has no hues to spend on parts. */
const SHADE: Readonly<Record<string, number>> = {
  'cutting-head': 0.42,
  'main-drive': 0.55,
  'main-bearing': 0.74,
  seals: 0.82,
  'front-shield': 0.24,
  'middle-shield': 0.15,
  'tail-shield': 0.11,
  thrust: 0.36,
  'screw-conveyor': 0.5,
  erector: 0.32,
  decks: 0.2,
}
const OTHER = 0.3

function partItems({ model, strip }: Stages): SceneItem[] {
  const { machine } = model.project
  if (machine === undefined) return []
  const moved = new Map<string, number[]>()
  strip.steps.forEach((s, k) => {
    for (const p of s.parts) moved.set(p, [...(moved.get(p) ?? []), k])
  })
  return [...model.instances.byId.values()].map((instance): SceneItem => {
    const { part, id } = instance
    const steps = moved.get(id) ?? []
    const first = strip.steps[steps[0] ?? -1]
    return {
      id,
      pointer: pointerOf('parts', id),
      name: part.name,
      layer: 'machine',
      group: part.group ?? '',
      shade: SHADE[part.group ?? ''] ?? OTHER,
      lines: 0.8,
      picked: true,
      pose: poseInSite(machine, instance),
      solids: solidShapes(part.solids, model.meshes),
      moved: steps,
      ...(first === undefined ? {} : { piece: first.piece }),
      ...(part.fate === 'scrapped' ? { scrapped: true } : {}),
    }
  })
}

function stepsOf(stages: Stages): SceneStep[] {
  const { project } = stages.model
  const passages = passagesOf(stages)
  return stages.strip.steps.map((s, k): SceneStep => {
    const typed = project.steps[s.step]
    const start = s.poses[0] ?? AT_REST
    return {
      step: s.step,
      piece: s.piece,
      name: project.pieces[s.piece]?.name ?? s.piece,
      parts: s.parts,
      passage: passages[k] as Passage,
      stays: typed?.stays === true,
      lift: s.lift,
      back: typed?.back,
      rig: rigUse(stages, s.lift, (p) => place(start, p)),
      rigBack: rigUse(stages, typed?.back, (p) => place(start, p)),
      cog: stages.mass.pieces[s.piece]?.found.cogSite ?? [0, 0, 0],
      struck: [...new Set(s.failures.flatMap((f) => f.blockers))],
    }
  })
}

function servicesOf({ model, strip }: Stages): SceneService[] {
  const parted = new Map(strip.steps.flatMap((s, k) => s.services.map((id) => [id, k] as const)))
  const known = (id: string): string | undefined =>
    model.instances.byId.has(id) ? id : model.instances.ofEntry.get(id)?.[0]?.id
  return Object.entries(model.project.services).flatMap(([id, s]): SceneService[] => {
    const [from, to] = [known(s.from), known(s.to)]
    return from === undefined && to === undefined ? [] : [{ id, from, to, parted: parted.get(id) }]
  })
}
