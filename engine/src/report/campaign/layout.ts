import type { PaperBox } from '../drawing.ts'
import { wallRadius } from '../views/shaft.ts'
import type { Campaign } from './campaign.ts'

/** Sizes of type, mm. */
export interface TypeSizes {
  title: number
  sentence: number
  label: number
  small: number
}

/** A sheet of paper, or the page's own width. */
export interface Sheet {
  width: number
  height: number
  margin: number
  type: TypeSizes
  /** How much smaller or larger than on A2 marks and gaps are. */
  k: number
  /** Head, foot and captions of the smallest class are printed. */
  head: boolean
  fine: boolean
  /** Lift days under the glass. */
  glass: boolean
}

export type Paper = 'A1' | 'A2' | 'A3' | 'A4'

const paper = (width: number, height: number, k: number, type: TypeSizes, fine = true): Sheet => ({
  width,
  height,
  margin: 12 * k,
  type,
  k,
  head: true,
  fine,
  glass: true,
})

/** Landscape sheets of ISO 216. On A3 the smallest class of type and the captions of supplies are left out, on A4 the hours of the lift days as well. */
export const SHEETS: Readonly<Record<Paper, Sheet>> = {
  A1: paper(841, 594, 1.3, { title: 9, sentence: 5.8, label: 4, small: 3.4 }),
  A2: paper(594, 420, 1, { title: 7, sentence: 4.5, label: 3.2, small: 2.8 }),
  A3: paper(420, 297, 0.72, { title: 5.2, sentence: 3.3, label: 2.35, small: 2 }, false),
  A4: { ...paper(297, 210, 0.58, { title: 4.4, sentence: 2.6, label: 2, small: 1.85 }, false), glass: false },
}

/** Papers that the diagram can be had on. */
export const CAMPAIGN_PAPERS = Object.keys(SHEETS) as readonly Paper[]

/** The page's width in millimetres of a screen, 96 dots to the inch; as high as the drawing needs. */
export const screenSheet = (width: number, glass: boolean): Sheet => ({
  width,
  height: 0,
  margin: 1,
  type: { title: 5, sentence: 3.8, label: 3.3, small: 2.95 },
  k: 0.95,
  head: false,
  fine: true,
  glass,
})

/** Where each band of the sheet lies, mm from its top left corner. */
export interface Layout {
  sheet: Sheet
  height: number
  /** From the ruler to the foot of the ground. */
  field: PaperBox
  /** Section of the shaft at the left. */
  strip: PaperBox
  ruler: number
  supplies: PaperBox
  wind: PaperBox
  uses: PaperBox
  lanes: PaperBox
  collar: number
  /** Millimetres of the world on a millimetre below the collar. */
  scale: number
  glass: PaperBox | undefined
  foot: number
}

/** The field begins right of the section and of what the lanes are called. */
export const fieldSides = ({ head, margin, width, k }: Sheet): { left: number; right: number } => ({
  left: margin + (head ? 104 : 74) * k,
  right: width - margin,
})

const SCALES = [150, 200, 250, 300, 350, 400, 450, 500, 600, 750, 1000, 1250, 1500, 2000, 3000]
const SCREEN_BELOW = 88

/** Bands from the top: head, ruler, supplies, wind, lifting systems and queues, lanes; the collar; the ground; the glass; the foot. */
export function layoutOf(campaign: Campaign, sheet: Sheet, asked: number, supplyRows: number): Layout {
  const { k, margin, type } = sheet
  const { left, right } = fieldSides(sheet)
  const ruler = sheet.head ? margin + 27 * k : 9.5 * k
  const supplyTop = ruler + (sheet.fine ? 11.5 : 9.5) * k
  const supplies = { left, right, top: supplyTop, bottom: supplyTop + supplyRows * type.small * 1.3 }
  const wind = { left, right, top: supplies.bottom + 2.5 * k, bottom: supplies.bottom + 2.5 * k }
  if (campaign.wind !== undefined) wind.bottom += 9 * k
  const uses = { left, right, top: wind.bottom + 2 * k, bottom: wind.bottom + 2 * k + campaign.uses.length * 3.2 * k }
  const glassHeight = sheet.glass ? 84 * k : 0
  const foot = sheet.height - margin - (sheet.head ? 8 * k : 0)
  const deepest = deepestOf(campaign)
  const free = sheet.height === 0 ? undefined : foot - glassHeight - uses.bottom - 5 * k
  const laneHeight = Math.min(asked * k, free === undefined ? 110 * k : Math.max(free * 0.5, 40 * k))
  const lanes = { left, right, top: uses.bottom + 3 * k, bottom: uses.bottom + 3 * k + laneHeight }
  const collar = lanes.bottom + 2 * k
  const below = free === undefined ? SCREEN_BELOW : foot - glassHeight - collar
  const strip = { left: margin, right: sheet.head ? left - 26 * k : left - 12 * k }
  const wide = wideOf(campaign)
  const fits = (s: number): boolean => (-deepest * 1000) / s <= below && (wide * 1000) / s <= strip.right - strip.left
  const scale = SCALES.find(fits) ?? Math.ceil((-deepest * 1000) / below)
  const bottom = collar + (-deepest * 1000) / scale
  const glassTop = bottom + 9 * k
  const end = sheet.height === 0 ? bottom + (sheet.glass ? glassHeight : 0) + 3 * k : sheet.height
  const glassBottom = sheet.height === 0 ? end - 2 * k : foot - 3 * k
  return {
    sheet,
    height: end,
    field: { left, right, top: ruler, bottom },
    strip: { ...strip, top: lanes.top, bottom },
    ruler,
    supplies,
    wind,
    uses,
    lanes,
    collar,
    scale,
    glass: sheet.glass ? { left: margin, right, top: glassTop, bottom: glassBottom } : undefined,
    foot,
  }
}

/** Width of the section: the shaft with its wall, and a little of the ground. */
const wideOf = ({ model }: Campaign): number =>
  model.project.shaft === undefined ? 0 : 2 * wallRadius(model.project.shaft) + 5

const UNDER_SLAB = 3.5

/** Lowest level drawn: a little below the slab of the shaft, or below the machine. */
function deepestOf({ model }: Campaign): number {
  const { shaft, machine } = model.project
  if (shaft === undefined) return (machine?.pose.origin[2].value ?? -20) - 12
  return (shaft.slabTop.value as number) - (shaft.slabThickness.value as number) - UNDER_SLAB
}
