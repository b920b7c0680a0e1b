import type { Derivation, Stages } from '@shieldwright/engine'
import { idsMeant, ratedRows } from '@shieldwright/engine/model/index.ts'
import { AT_REST, type Pose, place, type Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import { wayOf } from '@shieldwright/engine/strip/index.ts'
import type { Check } from '@shieldwright/engine/working/check.ts'
import type { Memory } from '@shieldwright/engine/working/memory.ts'
import { pointerOf, readPointer } from '@shieldwright/engine/working/pointer.ts'
import type { SiUnit } from '@shieldwright/engine/working/unit.ts'
import { type Box3, boxAt, meetInPlan, together } from './bounds.ts'
import type { Scene } from './scene.ts'
import { shapePoints } from './solids.ts'
import { type Moment, momentAt } from './stand.ts'
import { poseAlong } from './way.ts'

/** A figure of an entity; where it has no value it is open. */
export interface CardFact {
  label: string
  value?: number | undefined
  unit?: SiUnit
  /** Standard uncertainty in the same unit. */
  about?: number | undefined
  /** How it is known, or what it says in words. */
  words?: string
  /** A place, site frame, m. */
  place?: Vec3
}

/** What is known of an entity that has been pointed at, in the words and figures of the derivation. */
export interface CardView {
  pointer: string
  kind: string
  id: string
  name: string
  facts: readonly CardFact[]
  /** What is next for it, and what stands in its way now. */
  next: string | undefined
  blockers: readonly { name: string; pointer: string }[]
  /** How its way is drawn where the project does not say. */
  drawn: readonly string[]
  /** Checks of it that do not pass. */
  checks: readonly {
    id: string
    title: string
    of: string
    verdict: Check['verdict']
    stage: string
    lift: string | undefined
  }[]
  more: number
  links: readonly { text: string; stage: string; item?: string }[]
}

const MOST = 6

/**
 * The card of an entity at a place along the order; undefined where nothing in the project has that address.
 *
 * @param thorough what stands in its way is looked for as well: costs as much as a step of the order
 */
export function cardOf(
  { derived, memory }: Derivation,
  scene: Scene,
  pointer: string,
  along: number,
  thorough = true,
): CardView | undefined {
  const { stages } = derived
  const [collection, id = ''] = readPointer(pointer) ?? []
  if (stages === undefined || collection === undefined) return undefined
  const moment = momentAt(scene, along)
  const asked: Asked = { stages, memory, scene, moment, pointer, id, thorough }
  switch (collection) {
    case 'parts':
      return partCard(asked)
    case 'pieces':
      return pieceCard(asked)
    case 'lifts':
      return pieceCard({ ...asked, id: stages.model.project.lifts[id]?.piece ?? '' })
    case 'steps':
      return pieceCard({ ...asked, id: stages.model.project.steps[id]?.piece ?? '' })
    case 'bays':
      return bayCard(asked)
    case 'systems':
      return systemCard(asked)
    default:
      return placeCard(asked)
  }
}

interface Asked {
  stages: Stages
  memory: Memory
  scene: Scene
  moment: Moment
  pointer: string
  id: string
  thorough: boolean
}

const RANK: Readonly<Record<Check['verdict'], number>> = { fail: 0, open: 1, near: 2, pass: 3 }

function checksAbout(stages: Stages, pointers: readonly string[]): Pick<CardView, 'checks' | 'more'> {
  const own = stages.checks
    .filter(
      (c) =>
        c.verdict !== 'pass' && pointers.some((p) => c.subject.pointer === p || c.subject.pointer.startsWith(`${p}/`)),
    )
    .sort((a, b) => RANK[a.verdict] - RANK[b.verdict] || (b.utilisation ?? 0) - (a.utilisation ?? 0))
  return {
    checks: own.slice(0, MOST).map((c) => ({
      id: c.id,
      title: c.title,
      of: c.subject.id,
      verdict: c.verdict,
      stage: c.stage,
      lift: c.stage === 'lift' && stages.lift.lifts[c.subject.id] !== undefined ? c.subject.id : undefined,
    })),
    more: Math.max(0, own.length - MOST),
  }
}

function partCard(asked: Asked): CardView | undefined {
  const { stages, scene, id, pointer } = asked
  const { instances, project } = stages.model
  const [first] = idsMeant(instances, id)
  const instance = instances.byId.get(first ?? id)
  if (instance === undefined) return undefined
  const mass = stages.mass.parts[instance.entry]
  const joints = Object.values(project.joints).filter((j) =>
    j.between.some((b) => idsMeant(instances, b).includes(instance.id)),
  )
  const services = scene.services.filter((s) => s.from === instance.id || s.to === instance.id)
  const step = scene.steps.findIndex((s) => s.parts.includes(instance.id))
  const piece = scene.steps[step]?.piece
  const count = instances.ofEntry.get(instance.entry)?.length ?? 1
  return {
    pointer,
    kind: count > 1 ? `part, one of ${count} alike` : 'part',
    id: instance.id,
    name: instance.part.name,
    facts: [
      { label: 'Mass', value: mass?.mass.value, unit: 'kg', about: mass?.uncertainty.value, words: mass?.basis ?? '' },
      { label: 'Material', words: instance.part.material },
      {
        label: 'Leaves with',
        words: piece === undefined ? 'no piece: it stays' : (project.pieces[piece]?.name ?? piece),
      },
      { label: 'Joints', words: String(joints.length) },
      { label: 'Services', words: String(services.length) },
      { label: 'Afterwards', words: instance.part.fate },
    ],
    ...nextOf(asked, [instance.id]),
    ...checksAbout(stages, [
      pointerOf('parts', instance.entry),
      ...(piece === undefined ? [] : [pointerOf('pieces', piece)]),
    ]),
    links: [{ text: 'Its mass in the table', stage: 'mass' }, ...liftLinks(asked, piece)],
  }
}

function liftLinks({ stages }: Asked, piece: string | undefined): CardView['links'] {
  return Object.values(stages.lift.lifts)
    .filter((l) => l.piece === piece)
    .map((l) => ({ text: `Lift ${l.id}`, stage: 'lift', item: l.id }))
}

const KNOWN = { found: 'from its parts', weighed: 'weighed', returned: 'as it goes back' } as const

function pieceCard(asked: Asked): CardView | undefined {
  const { stages, scene, id, moment } = asked
  const piece = stages.model.project.pieces[id]
  const masses = stages.mass.pieces[id]
  if (piece === undefined || masses === undefined) return undefined
  const lifts = Object.values(stages.lift.lifts).filter((l) => l.piece === id)
  const steps = scene.steps.filter((s) => s.piece === id)
  const own = ['found', 'weighed', 'returned'] as const
  const last = scene.steps.findLastIndex((s, k) => s.piece === id && k < moment.out)
  const step = scene.steps[last]
  const cog = place(
    step === undefined ? AT_REST : poseAlong(step.passage.way, Math.min(1, moment.out - last)),
    masses.found.cogSite,
  )
  const joints = stages.strip.steps.filter((s) => s.piece === id).reduce((sum, s) => sum + s.joints.length, 0)
  return {
    pointer: pointerOf('pieces', id),
    kind: `piece, ${masses.found.parts.length === 1 ? 'one part' : `${masses.found.parts.length} parts`}`,
    id,
    name: piece.name,
    facts: [
      ...own.flatMap((state): CardFact[] => {
        const set = masses[state]
        if (set === undefined) return []
        return [
          {
            label: state === 'returned' ? 'Mass back' : 'Mass',
            value: set.net.value,
            unit: 'kg',
            about: set.uncertainty.value,
            words: KNOWN[state],
          },
        ]
      }),
      { label: 'Centre of gravity now', place: cog },
      { label: 'Joints opened for it', words: String(joints) },
      ...(piece.bay === undefined ? [] : [{ label: 'Bay', words: piece.bay }]),
    ],
    ...nextOf(asked, masses.found.parts, id),
    ...checksAbout(stages, [
      pointerOf('pieces', id),
      ...lifts.map((l) => pointerOf('lifts', l.id)),
      ...steps.map((s) => pointerOf('steps', s.step)),
    ]),
    links: [{ text: 'Its mass in the table', stage: 'mass' }, ...liftLinks(asked, id)],
  }
}

/** The next step that moves some of these parts, and what stands in its way with what is gone now. */
function nextOf(asked: Asked, parts: readonly string[], piece?: string): Pick<CardView, 'next' | 'blockers' | 'drawn'> {
  const { scene, moment } = asked
  const own = new Set(parts)
  const moves = (k: number): boolean =>
    piece === undefined ? (scene.steps[k]?.parts.some((p) => own.has(p)) ?? false) : scene.steps[k]?.piece === piece
  const order = scene.steps.map((_, k) => k).filter(moves)
  const under = order.find((k) => k === moment.step && moment.share > 0 && moment.share < 1)
  const drawn = scene.steps[under ?? order.filter((k) => k < moment.out).at(-1) ?? -1]?.passage.drawn ?? []
  const next = moment.homeward ? order.filter((k) => k < moment.out).at(-1) : order.find((k) => k >= moment.out)
  if (under !== undefined)
    return { next: `On its way, step ${under + 1} of ${scene.steps.length}.`, blockers: [], drawn }
  if (next === undefined)
    return {
      next: order.length === 0 ? 'No step of the order moves it.' : 'It has no further step.',
      blockers: [],
      drawn,
    }
  if (moment.homeward) return { next: `Goes back by the reverse of step ${next + 1}.`, blockers: [], drawn }
  return {
    next: `Moves in step ${next + 1} of ${scene.steps.length}${stepsBefore(next, moment)}.`,
    blockers: blockersOf(asked, next),
    drawn,
  }
}

const stepsBefore = (next: number, { out }: Moment): string => {
  const wait = next - Math.floor(out)
  return wait === 0 ? ', the next one' : wait === 1 ? ', after one more' : `, after ${wait} more`
}

/**
 * What its own moves would strike if it were to go now: looked for among the parts that leave before it, since its step is
 * verified with those gone.
 */
function blockersOf({ stages, memory, scene, moment, thorough }: Asked, next: number): CardView['blockers'] {
  const step = thorough ? stages.strip.steps[next] : undefined
  if (step === undefined || step.from !== 'shaft') return []
  const own = new Set(step.parts)
  const due = new Set(stages.strip.steps.slice(Math.floor(moment.out), next).flatMap((s) => s.parts))
  const others = [...due].filter((p) => !own.has(p))
  const failing = step.failures.flatMap((f) => f.blockers)
  if (others.length === 0) return named(stages, failing)
  const boxes = new Map([...own, ...others].map((p) => [p, boxesAlong(scene, p, own.has(p) ? step.poses : [AT_REST])]))
  const passes = (a: string, b: string): boolean => meet(boxes.get(a) as Box3, boxes.get(b) as Box3)
  const parts = step.parts.filter((p) => others.some((o) => passes(p, o)))
  const near = new Set(others.filter((o) => parts.some((p) => passes(p, o))))
  if (parts.length === 0) return named(stages, failing)
  const kept = new Set([...parts, ...near])
  const gone = [...stages.model.instances.byId.keys()].filter((p) => !kept.has(p))
  const { blocks } = wayOf(stages.model, stages.mass, { parts, gone, moves: step.moves }, memory)
  return named(stages, [
    ...failing,
    ...blocks.filter((b) => b.verdict === 'struck' && near.has(b.with)).map((b) => b.with),
  ])
}

/** The box that a part fills over some poses, from as found. */
function boxesAlong(scene: Scene, part: string, poses: readonly Pose[]): Box3 {
  const item = scene.items.find((i) => i.id === part && i.layer === 'machine')
  const points = item === undefined ? [] : item.solids.flatMap(shapePoints).map((p) => place(item.pose, p))
  return together(poses.map((pose) => boxAt(points, pose)))
}

const meet = (a: Box3, b: Box3): boolean =>
  meetInPlan(a, b, 0.1) && a.min[2] < b.max[2] + 0.1 && b.min[2] < a.max[2] + 0.1

function named(stages: Stages, found: readonly string[]): CardView['blockers'] {
  return [...new Set(found)].map((id) => {
    const part = stages.model.instances.byId.get(id)?.part.name
    const fixed = stages.model.project.shaft?.obstructions[id]?.what
    return {
      name: part ?? fixed ?? id,
      pointer: part === undefined ? pointerOf('shaft', 'obstructions', id) : pointerOf('parts', id),
    }
  })
}

const NOTHING = { next: undefined, blockers: [], drawn: [] } as const

function bayCard(asked: Asked): CardView | undefined {
  const { stages, scene, id, pointer, moment } = asked
  const bay = stages.model.project.bays[id]
  if (bay === undefined) return undefined
  const here = scene.steps.filter((s, k) => s.passage.bay === id && k + 1 <= moment.out)
  const names = [...new Set(here.map((s) => s.name))]
  return {
    pointer,
    kind: 'laydown bay',
    id,
    name: bay.name ?? `Bay ${id}`,
    facts: [
      { label: 'Allowable pressure', value: bay.allowable.value, unit: 'Pa' },
      { label: 'Along x', value: bay.size[0].value, unit: 'm' },
      { label: 'Along y', value: bay.size[1].value, unit: 'm' },
      { label: 'Built as', words: bay.construction ?? 'not said' },
      { label: 'Brought here so far', words: names.length === 0 ? 'nothing' : names.join(', ') },
    ],
    ...NOTHING,
    ...checksAbout(stages, [pointerOf('bays', id)]),
    links: [{ text: 'The ground under it', stage: 'ground' }],
  }
}

function systemCard({ stages, scene, id, pointer }: Asked): CardView | undefined {
  const system = stages.model.project.systems[id]
  if (system === undefined) return undefined
  const lifts = Object.values(stages.lift.lifts).filter((l) => l.system === id)
  return {
    pointer,
    kind: system.kind,
    id,
    name: system.name,
    facts: [
      ...Object.values(system.hooks).flatMap((h): CardFact[] => [
        ...(h.rated === undefined ? [] : [{ label: `${h.name}, rated`, value: h.rated.value, unit: 'kg' } as const]),
        ...chartFacts(h),
        { label: `${h.name}, highest`, value: h.highest?.value, unit: 'm' },
      ]),
      { label: 'Lifts with it', words: String(lifts.length) },
    ],
    ...NOTHING,
    drawn: [symbolWords(scene.systems[id]?.boom !== undefined)],
    ...checksAbout(stages, [pointerOf('systems', id)]),
    links: lifts.slice(0, 3).map((l) => ({ text: `Lift ${l.id}`, stage: 'lift', item: l.id })),
  }
}

function chartFacts(hook: Stages['model']['project']['systems'][string]['hooks'][string]): CardFact[] {
  const radii = ratedRows(hook).map(({ radius }) => radius.value ?? 0)
  return radii.length === 0 ? [] : [{ label: `${hook.name}, chart to radius`, value: Math.max(...radii), unit: 'm' }]
}

/** What of a lifting system is not drawn as it is. */
function symbolWords(hasBoom: boolean): string {
  const symbols = hasBoom ? 'legs, beams and blocks' : 'legs, beams, blocks and booms'
  const boom = hasBoom ? ' The boom is the straight box that the check takes it for.' : ''
  return `Sections of ${symbols} are not in the model: they are drawn as symbols.${boom}`
}

/** Ground, shaft and what is fixed in it: what the item says, and its levels. */
function placeCard({ stages, scene, pointer }: Asked): CardView | undefined {
  const item =
    scene.items.find((i) => i.pointer === pointer && i.picked) ?? scene.items.find((i) => i.pointer === pointer)
  if (item === undefined) return undefined
  const path = readPointer(pointer) ?? []
  const { project } = stages.model
  const layer = path[1] === 'layers' ? project.ground?.layers[path[2] ?? ''] : undefined
  const fixed = path[1] === 'obstructions' ? project.shaft?.obstructions[path[2] ?? ''] : undefined
  const water = path[1] === 'water' ? project.ground?.water[path[2] ?? ''] : undefined
  const level = (label: string, given: { value: number | undefined } | undefined): CardFact => ({
    label,
    value: given?.value,
    unit: 'm',
  })
  const facts: CardFact[] =
    layer !== undefined
      ? [
          level('Top', layer.top),
          level('Bottom', layer.bottom),
          { label: 'Unit weight', value: layer.unitWeight.value, unit: 'N/m3' },
          ...(layer.phi === undefined
            ? []
            : [{ label: 'Friction angle', value: layer.phi.value, unit: 'rad' as const }]),
        ]
      : fixed !== undefined
        ? [
            level('From', fixed.z[0]),
            level('Up to', fixed.z[1]),
            { label: 'Removed', words: fixed.removedBefore === undefined ? 'never' : `before ${fixed.removedBefore}` },
            ...(fixed.note === undefined ? [] : [{ label: 'Note', words: fixed.note }]),
          ]
        : water !== undefined
          ? [level('Head', water.head), { label: 'In', words: water.layers.join(', ') }]
          : []
  return {
    pointer,
    kind: layer !== undefined ? 'ground layer' : fixed !== undefined ? 'fixed in the shaft' : item.layer,
    id: path.at(-1) ?? '',
    name: item.name,
    facts,
    ...NOTHING,
    ...checksAbout(stages, [pointer]),
    links: [
      {
        text: fixed === undefined ? 'Ground and shaft' : 'The order it stands beside',
        stage: fixed === undefined ? 'ground' : 'strip',
      },
    ],
  }
}
