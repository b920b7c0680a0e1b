import { changeDerivation, type Derivation, startDerivation } from '@shieldwright/engine'
import { campaignDiagram, type Drawing, liftSheetPages, svgOf } from '@shieldwright/engine/report/index.ts'
import { projectJsonSchema } from '@shieldwright/engine/model/jsonSchema.ts'
import { sceneOf } from '../scene/scene.ts'
import { formulaViews } from './formulas.ts'
import { differenceOf, previewOf, readAddresses } from './preview.ts'
import type { AnswerTo, Ask, DrawnView, FromWorker, Requests, ToWorker } from './protocol.ts'
import { summaryOf } from './view.ts'
import { workingAt } from './workingAt.ts'

/** Left to the page for its first drawing, ms. */
const IDLE = 1500

/** The one derivation this worker holds; every change replaces it. */
let held: Derivation | undefined

type Serve = { [K in keyof Requests]: (ask: Ask<K>, id: number) => AnswerTo<K> | Promise<AnswerTo<K>> }

const serve: Serve = {
  open: ({ document }) => {
    held = startDerivation(document)
    const { stages } = held.derived
    if (stages !== undefined) setTimeout(() => readAddresses(stages), IDLE)
    return described(held)
  },
  preview: ({ patch }) => previewOf(opened(), patch),
  keep: ({ patch }) => {
    const before = opened()
    const began = performance.now()
    const changed = changeDerivation(before, patch)
    if (changed.derivation === undefined) return { problems: changed.problems }
    if (changed.derivation.derived.stages === undefined) return described(changed.derivation)
    held = changed.derivation
    return { ...described(held), preview: differenceOf(before, held, patch, began) }
  },
  schema: () => projectJsonSchema(),
  working: ({ of, path, system }) => {
    const stages = opened().derived.stages
    return stages === undefined ? undefined : workingAt(stages, of, path, system)
  },
  scene: () => {
    const stages = opened().derived.stages
    return stages === undefined ? undefined : sceneOf(stages)
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

const described = (derivation: Derivation) => {
  const { problems, stages } = derivation.derived
  return stages === undefined ? { problems } : { problems, summary: summaryOf(stages) }
}

const reply = (message: FromWorker): void => postMessage(message)

self.onmessage = async ({ data }: MessageEvent<ToWorker>) => {
  try {
    reply({ id: data.id, answer: await (serve[data.kind] as (ask: unknown, id: number) => unknown)(data.ask, data.id) })
  } catch (error) {
    reply({ id: data.id, fault: (error as Error).message })
  }
}
