import { changeDerivation, type Derivation, startDerivation } from '@shieldwright/engine'
import { campaignDiagram, type Drawing, liftSheetPages, svgOf } from '@shieldwright/engine/report/index.ts'
import { type Answer, inputsOf } from '@shieldwright/engine/working/answer.ts'
import { workingOf } from '@shieldwright/engine/working/show.ts'
import { sceneOf } from '../scene/scene.ts'
import { previewOf } from './preview.ts'
import type { AnswerTo, Ask, DrawnView, FromWorker, Requests, ToWorker, WorkingView } from './protocol.ts'
import { summaryOf } from './view.ts'

/** The one derivation this worker holds; every change replaces it. */
let held: Derivation | undefined

type Serve = { [K in keyof Requests]: (ask: Ask<K>, id: number) => AnswerTo<K> | Promise<AnswerTo<K>> }

const serve: Serve = {
  open: ({ document }) => {
    held = startDerivation(document)
    return described(held)
  },
  preview: ({ patch }) => previewOf(opened(), patch),
  keep: ({ patch }) => {
    const changed = changeDerivation(opened(), patch)
    if (changed.derivation === undefined) return { problems: changed.problems }
    if (changed.derivation.derived.stages !== undefined) held = changed.derivation
    return described(changed.derivation)
  },
  working: ({ check, side, path, system }) => {
    const found = opened().derived.stages?.checks.find((c) => c.id === check)
    const answer = found === undefined ? undefined : walk(found[side], path)
    return answer === undefined ? undefined : workingView(answer, system)
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

function walk(answer: Answer, path: readonly string[]): Answer | undefined {
  return path.reduce<Answer | undefined>(
    (at, label) => (at === undefined ? undefined : inputsOf(at).find(([l]) => l === label)?.[1]),
    answer,
  )
}

function workingView(answer: Answer, system: 'SI' | 'US'): WorkingView {
  const below = inputsOf(answer)
    .filter(([, input]) => input.kind !== 'given' && input.kind !== 'stated')
    .map(([label]) => label)
  return { working: workingOf(answer, system), below }
}

const reply = (message: FromWorker): void => postMessage(message)

self.onmessage = async ({ data }: MessageEvent<ToWorker>) => {
  try {
    reply({ id: data.id, answer: await (serve[data.kind] as (ask: unknown, id: number) => unknown)(data.ask, data.id) })
  } catch (error) {
    reply({ id: data.id, fault: (error as Error).message })
  }
}
