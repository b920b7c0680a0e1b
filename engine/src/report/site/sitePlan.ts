import { SOIL } from '../../ground/caution.ts'
import type { Drawing, View } from '../drawing.ts'
import { DEFERRAL } from '../sheet/cautions.ts'
import type { SheetStages } from '../sheet/subject.ts'
import { type Layout, layoutOf } from './layout.ts'
import { hatchBlock, planHatches } from './legend.ts'
import { missingFromPlan } from './missing.ts'
import { planFrame } from './planFrame.ts'
import { beyond } from './planLines.ts'
import { paperBox } from './planMachines.ts'
import { PLAN_PADS, sitePlanView } from './planView.ts'
import { shaftView } from './shaftView.ts'
import { type SiteDocument, sheetsOf } from './sheets.ts'
import { type SiteOptions, type SiteSubject, siteSubject } from './subject.ts'
import { bayTable, blocks, craneTable, instrumentTable, loadTable, neighbourTable, noteBlock } from './tables.ts'

/** The plan of the site once a step is done; what the project does not have is said on it. */
export function sitePlan(stages: SheetStages, options: SiteOptions = {}): Drawing[] {
  const subject = siteSubject(stages, options)
  const frame = planFrame(stages.model) ?? { left: -10, right: 10, bottom: -10, top: 10 }
  const need = { wide: frame.right - frame.left, high: frame.top - frame.bottom, ...PLAN_PADS }
  const whole = layoutOf(options.paper ?? 'A3', need)
  const { layout, views } = withShaft(subject, whole)
  const view = sitePlanView(subject, frame, layout.ratio, layout.view)
  const placing = { scale: layout.ratio, of: [frame.left, frame.top] as const, at: [0, 0] as const }
  const outside = beyond(subject, placing, paperBox(placing, frame))
  const document: SiteDocument = {
    title: 'Plan of the site',
    layout,
    views: [view, ...views],
    rows: (width) =>
      blocks([
        loadTable(subject, width),
        bayTable(subject, width),
        craneTable(subject, width),
        neighbourTable(subject, outside, width),
        instrumentTable(subject, width),
      ]),
    notes: (width) =>
      blocks([
        hatchBlock(planHatches(subject), width),
        noteBlock('How to read it', planNotes(subject), width),
        noteBlock('Before anyone builds by it', [...SITE_CAUTIONS, DEFERRAL], width),
      ]),
  }
  return sheetsOf(subject, [document])
}

/** The shaft by itself stands at the head of the last column where there are several. */
function withShaft(subject: SiteSubject, layout: Layout): { layout: Layout; views: View[] } {
  const last = layout.columns.at(-1)
  const shown = layout.columns.length < 2 || last === undefined ? undefined : shaftView(subject, last, layout.ratio)
  if (shown === undefined || last === undefined) return { layout, views: [] }
  return {
    layout: { ...layout, columns: [...layout.columns.slice(0, -1), { ...last, top: shown.bottom + 4 }] },
    views: [shown.view],
  }
}

export const SITE_CAUTIONS: readonly string[] = [
  SOIL,
  'Services are where the project says; find them on the ground before digging or standing a crane.',
]

function planNotes(subject: SiteSubject): string[] {
  const named = (bays: SiteSubject['bays']): string => bays.map((b) => b.bay).join(', ')
  const inRows = subject.bays.filter((b) => b.byRule && !b.crowded)
  const crowded = subject.bays.filter((b) => b.crowded)
  return [
    'Running dimensions begin at the shaft’s centre. Full squares: legs while the piece hangs; open squares: once it is set down. Dash and dot: farthest radius planned from a standing.',
    ...(inRows.length === 0
      ? []
      : [`On ${named(inRows)} several pieces lie in rows by a rule: the model has a bay for each, not a place on it.`]),
    ...(crowded.length === 0
      ? []
      : [
          `On ${named(crowded)} rows find no room for all that is set down there, half a metre apart. Plan where each lies.`,
        ]),
    ...missingFromPlan(subject),
  ]
}
