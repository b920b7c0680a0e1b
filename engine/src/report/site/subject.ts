import { AS_IT_STANDS, type GroundStep } from '../../ground/index.ts'
import { IDENTITY, type Mat3, type Pose, ZERO } from '../../numeric/vector.ts'
import { placesByStep, type StepPlaces } from '../../strip/index.ts'
import type { UnitSystem } from '../../working/quantity.ts'
import { frameOf, type Point2 } from '../outline/convex.ts'
import { LOOKING_DOWN, type Look, moved, type Standing, silhouette } from '../outline/picture.ts'
import { type Placing, scaleText } from '../paper/scale.ts'
import { lengthUnit } from '../sheet/figures.ts'
import { type SheetStages, standing } from '../sheet/subject.ts'
import { LAID_CHORD } from './chord.ts'
import type { SitePaper } from './layout.ts'
import { sideBySide } from './sideBySide.ts'

/** What the one who issues a site drawing adds to what the model says. */
export interface SiteOptions {
  units?: UnitSystem
  paper?: SitePaper
  /** Step of the order that is shown; the one that presses most on the wall where none is named. */
  step?: string
  contentHash?: string
  revision?: string
  date?: string
  /** For a page and not for paper: no ratio holds there, the scale bar does. */
  screen?: boolean
  /** The page has the title. */
  untitled?: boolean
}

/** The ratio of a view on paper. */
export const scaleWords = ({ options }: SiteSubject, placing: Placing): string =>
  options.screen ? 'by the scale bar' : scaleText(placing)

/** What stands under the heading of a view: its ratio, what it shows, and the unit of its figures. */
export const underHead = (subject: SiteSubject, placing: Placing, ...words: readonly string[]): string =>
  [scaleWords(subject, placing), ...words, lengthUnit(subject.units)].join(' · ')

/** A piece on a bay. */
export interface Laid {
  piece: string
  name: string
  /** Step that brought it. */
  step: string
  /** Its shapes as it lies, from where it was found, and the shift that brings them there. */
  shapes: readonly Standing[]
  shift: Pose
  /** As seen from above where it lies, site frame. */
  plan: readonly (readonly Point2[])[]
  /** The step shown brings it. */
  now: boolean
}

/** What lies on one bay. */
export interface LaidBay {
  bay: string
  laid: readonly Laid[]
  /** Several lie side by side by a rule, for the model has no places for them. */
  byRule: boolean
  /** They do not find room side by side. */
  crowded: boolean
}

/** The site once one step of the order is done, with everything its drawings show. */
export interface SiteSubject {
  stages: SheetStages
  options: SiteOptions
  units: UnitSystem
  /** Undefined where the project has no order. */
  step: GroundStep | undefined
  /** What the step is, in words, and why it is this one. */
  words: string
  chosenBy: string
  /** Shapes in the shaft once it is done. */
  remaining: readonly Standing[]
  bays: readonly LaidBay[]
}

/** The site at a step, or before any; at the governing one where none is named or there is none of that name. */
export function siteSubject(stages: SheetStages, options: SiteOptions): SiteSubject {
  const { model, ground } = stages
  if (ground.standing !== undefined && (options.step === AS_IT_STANDS || ground.steps.length === 0))
    return beforeAnyStep(stages, options, ground.standing)
  const named = ground.steps.findIndex((s) => s.step === options.step)
  const governing = ground.steps.findIndex((s) => s.step === ground.governing)
  const index = named >= 0 ? named : governing >= 0 ? governing : ground.steps.length - 1
  const step = ground.steps[index]
  const place = step === undefined ? undefined : placesByStep(model, stages.strip)[index]
  return {
    stages,
    options,
    units: options.units ?? model.project.settings.units,
    step,
    words:
      step === undefined
        ? 'no order yet'
        : `after ${step.step}, ${model.project.pieces[step.piece]?.name ?? step.piece}`,
    chosenBy: 'heaviest step for the wall unless another is asked for',
    remaining: standing(stages, place === undefined ? [...model.instances.byId.keys()] : place.step.remaining),
    bays: place === undefined ? [] : laidBays(stages, place),
  }
}

/** The site as it stands before any step: everything is in the shaft, nothing of the machine on a bay. */
const beforeAnyStep = (
  stages: SheetStages,
  options: SiteOptions,
  state: NonNullable<SheetStages['ground']['standing']>,
): SiteSubject => ({
  stages,
  options,
  units: options.units ?? stages.model.project.settings.units,
  step: { ...state, piece: '' },
  words: 'as it stands, before any step',
  chosenBy: 'nothing of the order is done yet',
  remaining: standing(stages, [...stages.model.instances.byId.keys()]),
  bays: [],
})

function laidBays(stages: SheetStages, place: StepPlaces): LaidBay[] {
  return Object.entries(place.after).flatMap(([id, standings]) => {
    const bay = stages.model.project.bays[id]
    if (bay === undefined) return []
    const lying = standings.map((s) => lyingOf(stages, s, place.step.step))
    const sizes = lying.map(({ loops }) => frameOf(loops.flat()))
    const [x, y] = bay.centre.map((v) => v.value as number) as [number, number]
    const [a, b] = bay.size.map((v) => v.value as number) as [number, number]
    const places = sideBySide(
      sizes.map((f) => [f.right - f.left, f.top - f.bottom]),
      [a, b],
    )
    const laid = lying.flatMap((l, i): Laid[] => {
      const frame = sizes[i]
      if (frame === undefined || l.loops.length === 0) return []
      const [u, v] = places?.[i] ?? [0, 0]
      const [du, dv] = [x + u - (frame.left + frame.right) / 2, y + v - (frame.bottom + frame.top) / 2]
      const low = lowest(l.shapes)
      return [
        {
          ...l,
          shift: { turn: IDENTITY, shift: [du, dv, (bay.level.value as number) - low] },
          plan: l.loops.map((loop) => loop.map(([p, q]): Point2 => [p + du, q + dv])),
        },
      ]
    })
    return [{ bay: id, laid, byRule: laid.length > 1, crowded: places === undefined }]
  })
}

const LOOKING_ACROSS: Look = { across: [0, 1, 0], up: [0, 0, 1] }

const lowest = (shapes: readonly Standing[]): number =>
  frameOf(silhouette(shapes, LOOKING_ACROSS, LAID_CHORD).flat()).bottom

function lyingOf(stages: SheetStages, { step, piece, parts }: StepPlaces['after'][string][number], shown: string) {
  const turn: Mat3 = turnedAt(stages, step)
  const shapes = moved(standing(stages, parts), { turn, shift: ZERO })
  return {
    piece,
    name: stages.model.project.pieces[piece]?.short ?? stages.model.project.pieces[piece]?.name ?? piece,
    step,
    shapes,
    loops: silhouette(shapes, LOOKING_DOWN, LAID_CHORD),
    now: step === shown,
  }
}

/** How a piece lies after the step that set it down, from where it was found. */
function turnedAt({ ground }: SheetStages, step: string): Mat3 {
  return ground.steps.find((s) => s.step === step)?.landing?.turned ?? IDENTITY
}
