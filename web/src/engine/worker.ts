import {
  changeDerivation,
  type Derivation,
  keepTried,
  type Stages,
  startDerivation,
  tryChange,
} from '@shieldwright/engine'
import { projectJsonSchema } from '@shieldwright/engine/model/jsonSchema.ts'
import type { ProgrammeResult } from '@shieldwright/engine/programme/index.ts'
import { type Drawing, liftSheetPages, svgOf } from '@shieldwright/engine/report/index.ts'
import { type Memory, sameContent } from '@shieldwright/engine/working/memory.ts'
import type { Patch } from '@shieldwright/engine/working/patch.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { campaignDesk } from '../campaign/view.ts'
import { cardOf } from '../scene/card.ts'
import type { StepClearances } from '../scene/clearance.ts'
import { clearancesOf } from '../scene/clearances.ts'
import { type Scene, sceneOf } from '../scene/scene.ts'
import { documentViews, groundView, pageView, pictureView, rangeViews } from '../site/view.ts'
import type { OrderView } from '../strip/orderView.ts'
import { deltaBetween } from './delta.ts'
import { fileRead } from './fileRead.ts'
import { formulaViews } from './formulas.ts'
import { liftPageView } from './liftPage.ts'
import { meshesOf } from './meshes.ts'
import { nearestView } from './nearestView.ts'
import { orderView, precedenceView } from './orderView.ts'
import { differenceOf, type Trying, tryingOf } from './preview.ts'
import type { AnswerTo, Ask, DrawnView, FromWorker, Preview, Requests, Summary, ToWorker } from './protocol.ts'
import { solidView } from './solidView.ts'
import { summaryOf } from './view.ts'
import { workingAt } from './workingAt.ts'

/** The one derivation this worker holds; every change replaces it. */
let held: Derivation | undefined
/** What the page shows of it. */
let shown: Summary | undefined
/** What was last tried on it, for when that is kept. */
let trying: Trying | undefined
/** The plan before the last change that was kept, for those who want to see what moved. */
let earlierPlan: ProgrammeResult['plan'] | undefined
const campaign = campaignDesk()

type Serve = { [K in keyof Requests]: (ask: Ask<K>, id: number) => AnswerTo<K> | Promise<AnswerTo<K>> }

const serve: Serve = {
  open: async ({ document }) => {
    held = startDerivation(document, await meshesOf(document))
    const { stages } = held.derived
    trying = undefined
    shown = stages === undefined ? undefined : summaryOf(stages)
    return { problems: held.derived.problems, summary: shown }
  },
  preview: ({ patch }) => {
    trying = tryingOf(opened(), patch)
    return trying.preview
  },
  keep: ({ patch }) => {
    const before = opened()
    const { derivation, preview, problems } = keptChange(before, patch)
    trying = undefined
    const stages = derivation?.derived.stages
    if (derivation === undefined || stages === undefined) return { problems }
    earlierPlan = before.derived.stages?.programme.plan
    held = derivation
    const after = summaryOf(stages)
    const delta = shown === undefined ? undefined : deltaBetween(shown, after)
    shown = after
    return { problems, preview, ...(delta === undefined ? { summary: after } : { delta }) }
  },
  schema: () => projectJsonSchema(),
  file: ({ text }) => fileRead(text),
  working: ({ of, path, system }) => {
    const stages = opened().derived.stages
    return stages === undefined ? undefined : workingAt(stages, of, path, system)
  },
  solid: ({ pointer, patch }) => {
    const stages = derivedOf(patch).derived?.stages
    return stages === undefined ? undefined : solidView(stages, pointer)
  },
  scene: () => {
    const stages = opened().derived.stages
    return stages === undefined ? undefined : sceneHeld(stages)
  },
  clearances: ({ step }) => {
    const { derived, memory } = opened()
    return derived.stages === undefined ? undefined : clearancesHeld(derived.stages, step, memory)
  },
  card: ({ pointer, along, thorough }) => {
    const stages = opened().derived.stages
    return stages === undefined ? undefined : cardOf(opened(), sceneHeld(stages), pointer, along, thorough)
  },
  liftPage: ({ lift, system }) => {
    const stages = opened().derived.stages
    return stages === undefined ? undefined : liftPageView(stages, lift, system)
  },
  order: ({ patch }) => orderOf(patch),
  nearest: ({ patch }) => {
    const stages = derivedOf(patch).derived?.stages
    return stages === undefined ? undefined : nearestView(stages)
  },
  precedence: () => {
    const stages = opened().derived.stages
    return stages === undefined ? undefined : precedenceView(stages)
  },
  sheet: ({ lift }) => {
    const stages = opened().derived.stages
    const pages = stages === undefined ? undefined : liftSheetPages(stages, lift)
    return (pages ?? []).map(drawnView)
  },
  site: (ask) => {
    const stages = opened().derived.stages
    return stages === undefined ? undefined : pictureView(stages, ask)
  },
  ground: ({ step }) => {
    const stages = opened().derived.stages
    return stages === undefined ? undefined : groundView(stages, step)
  },
  ranges: () => {
    const { derived, memory } = opened()
    return derived.stages === undefined ? [] : rangeViews(derived.stages, memory)
  },
  documents: () => {
    const stages = opened().derived.stages
    return stages === undefined ? [] : documentViews(stages)
  },
  page: (ask) => {
    const stages = opened().derived.stages
    return stages === undefined ? undefined : pageView(stages, ask)
  },
  formulas: () => formulaViews(held?.derived.stages?.checks ?? []),
  campaign: (ask) => {
    const stages = opened().derived.stages
    return stages === undefined ? undefined : campaign.view(stages, ask, earlierPlan)
  },
  times: () => {
    const stages = opened().derived.stages
    return stages === undefined ? undefined : campaign.times(stages)
  },
}

/** The order as it stands, or with a patch; one that is being looked at is not worked out again. */
function orderOf(patch: Patch | undefined): OrderView {
  const { derived, problems } = derivedOf(patch)
  return orderView(derived?.stages, derived?.problems ?? problems)
}

/** What the project comes to, or would with a patch; one that is being tried is not worked out twice. */
function derivedOf(patch: Patch | undefined) {
  if (patch === undefined) return { derived: opened().derived, problems: [] }
  const isTried = trying?.tried !== undefined && trying.from === held && sameContent(trying.patch, patch)
  const { derivation, problems } = isTried ? { derivation: trying?.tried, problems: [] } : tryChange(opened(), patch)
  return { derived: derivation?.derived, problems }
}

/** The scene of the stages last asked for, and what has been sampled along its ways. */
let drawn: { stages: Stages; scene: Scene; sampled: Map<number, StepClearances | undefined> } | undefined
function drawnOf(stages: Stages) {
  if (drawn?.stages !== stages) drawn = { stages, scene: sceneOf(stages), sampled: new Map() }
  return drawn
}
const sceneHeld = (stages: Stages): Scene => drawnOf(stages).scene

function clearancesHeld(stages: Stages, step: number, memory: Memory): StepClearances | undefined {
  const { scene, sampled } = drawnOf(stages)
  if (!sampled.has(step)) sampled.set(step, clearancesOf(stages, scene, step, memory))
  return sampled.get(step)
}

const drawnView = (drawing: Drawing): DrawnView => ({ title: drawing.title, svg: svgOf(drawing) })

function opened(): Derivation {
  if (held === undefined) throw new Error('no project is open')
  return held
}

interface KeptChange {
  derivation?: Derivation
  preview?: Preview
  problems: readonly Problem[]
}

/** A change to be kept; one that was just tried is not worked out again. */
function keptChange(before: Derivation, patch: Patch): KeptChange {
  if (trying?.tried !== undefined && trying.from === before && sameContent(trying.patch, patch)) {
    const { tried, preview } = trying
    return { derivation: keepTried(tried), preview, problems: tried.derived.problems }
  }
  const began = performance.now()
  const { derivation, problems } = changeDerivation(before, patch)
  if (derivation === undefined) return { problems }
  return { derivation, preview: differenceOf(before, derivation, patch, began), problems: derivation.derived.problems }
}

const reply = (message: FromWorker): void => postMessage(message)

self.onmessage = async ({ data }: MessageEvent<ToWorker>) => {
  try {
    reply({ id: data.id, answer: await (serve[data.kind] as (ask: unknown, id: number) => unknown)(data.ask, data.id) })
  } catch (error) {
    reply({ id: data.id, fault: (error as Error).message })
  }
}
