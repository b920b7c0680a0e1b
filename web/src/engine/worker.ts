import { changeDerivation, type Derivation, keepTried, startDerivation } from '@shieldwright/engine'
import { projectJsonSchema } from '@shieldwright/engine/model/jsonSchema.ts'
import { campaignDiagram, type Drawing, liftSheetPages, svgOf } from '@shieldwright/engine/report/index.ts'
import { sameContent } from '@shieldwright/engine/working/memory.ts'
import type { Patch } from '@shieldwright/engine/working/patch.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { sceneOf } from '../scene/scene.ts'
import { readAddresses } from './addresses.ts'
import { deltaBetween } from './delta.ts'
import { fileRead } from './fileRead.ts'
import { formulaViews } from './formulas.ts'
import { liftPageView } from './liftPage.ts'
import { differenceOf, type Trying, tryingOf } from './preview.ts'
import type { AnswerTo, Ask, DrawnView, FromWorker, Preview, Requests, Summary, ToWorker } from './protocol.ts'
import { summaryOf } from './view.ts'
import { workingAt } from './workingAt.ts'

/** Left to the page for its first drawing, ms. */
const IDLE = 1500

/** The one derivation this worker holds; every change replaces it. */
let held: Derivation | undefined
/** What the page shows of it. */
let shown: Summary | undefined
/** What was last tried on it, for when that is kept. */
let trying: Trying | undefined

type Serve = { [K in keyof Requests]: (ask: Ask<K>, id: number) => AnswerTo<K> | Promise<AnswerTo<K>> }

const serve: Serve = {
  open: ({ document }) => {
    held = startDerivation(document)
    const { stages } = held.derived
    if (stages !== undefined) setTimeout(() => readAddresses(stages), IDLE)
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
  scene: () => {
    const stages = opened().derived.stages
    return stages === undefined ? undefined : sceneOf(stages)
  },
  liftPage: ({ lift, system }) => {
    const stages = opened().derived.stages
    return stages === undefined ? undefined : liftPageView(stages, lift, system)
  },
  sheet: ({ lift }) => {
    const stages = opened().derived.stages
    const pages = stages === undefined ? undefined : liftSheetPages(stages, lift)
    return (pages ?? []).map(drawnView)
  },
  formulas: () => formulaViews(held?.derived.stages?.checks ?? []),
  campaign: () => {
    const stages = opened().derived.stages
    const drawing = stages === undefined ? undefined : campaignDiagram(stages)
    return drawing === undefined ? undefined : drawnView(drawing)
  },
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
