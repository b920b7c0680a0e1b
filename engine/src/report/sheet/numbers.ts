import { GO_OR_STOP, GO_OR_STOP_SOURCE } from '../../lift/index.ts'
import type { Mark, PaperBox } from '../drawing.ts'
import { pour } from '../paper/flow.ts'
import { SMALL } from '../paper/pen.ts'
import {
  type Column,
  headingRow,
  proseRows,
  type Row,
  signatureRow,
  spaceRow,
  type TableRow,
  tableRows,
} from '../paper/rows.ts'
import { carrierBlock, contentsBlock } from './carrierRows.ts'
import { allowanceBlock, dayBlock } from './dayRows.ts'
import { OPEN } from './figures.ts'
import type { LiftSheet } from './liftSheet.ts'
import type { Chain } from './massChain.ts'
import { withRef } from './refs.ts'
import { type SheetCheck, verdictWord } from './sheetChecks.ts'
import type { SheetWorking } from './workings.ts'

const GUTTER = 6
/** Wide enough for a table of seven columns, mm. */
const COLUMN = 120

const SIGN_HEIGHT = 47

/**
 * Print of a sheet: first, in the boxes that the views leave, the sum on the hook, the day's steps, cautions and signatures;
 * then every figure with what it takes to do it again.
 *
 * @param rooms boxes that the drawings leave on their page; the signatures stand at the foot of the last. None: the print begins a page
 * @param room of a page of print
 * @param drawn what drawings take at the top of the first columns of the next page, mm
 */
export function printPages(
  sheet: LiftSheet,
  rooms: readonly PaperBox[],
  room: PaperBox,
  drawn: readonly number[] = [],
): Mark[][] {
  const columns = columnsOf(room)
  const width = (columns[0] as PaperBox).right - (columns[0] as PaperBox).left
  const second = columns.map((c, i) => ({ ...c, top: c.top + (drawn[i] ?? 0) }))
  const last = rooms.at(-1)
  if (last === undefined) {
    const signing = signatureBlock(sheet, width).map((row): Row => ({ ...row, keep: true }))
    return pour([...dayRows(sheet, width), ...signing, spaceRow(3.5), ...numberRows(sheet, width)], second, columns)
  }
  const first = [...rooms.slice(0, -1), { ...last, bottom: last.bottom - SIGN_HEIGHT }]
  const narrow = Math.min(...rooms.map((r) => r.right - r.left))
  const [head, ...tail] = numberRows(sheet, width)
  const rows = [...dayRows(sheet, narrow), { ...(head as Row), leavesFirst: true }, ...tail]
  const [page = [], ...pages] = pour(rows, first, columns, second)
  const signing = pour(signatureBlock(sheet, last.right - last.left), [{ ...last, top: last.bottom - SIGN_HEIGHT + 2 }])
  return [[...page, ...signing.flat()], ...pages]
}

const dayRows = (sheet: LiftSheet, width: number): Row[] =>
  [massBlock(sheet, width), stepBlock(sheet, width), cautionBlock(sheet, width)].flatMap((block) => [
    ...block,
    spaceRow(3),
  ])

const numberRows = (sheet: LiftSheet, width: number): Row[] =>
  [
    dayBlock(sheet, width),
    legBlock(sheet, width),
    tailLegBlock(sheet, width),
    allowanceBlock(sheet, width),
    heightBlock(sheet, width),
    windBlock(sheet, width),
    turningBlock(sheet, width),
    pivotBlock(sheet, width),
    carrierBlock(sheet, width),
    checkBlock(sheet, width),
    classBlock(sheet, width),
    arrangedBlock(sheet, width),
    worksBlock(sheet, width),
    contentsBlock(sheet, width),
    goOrStopBlock(width),
    assumptionBlock(sheet, width),
    openBlock(sheet, width),
    nameBlock(sheet, width),
    workingBlock(sheet, width),
  ]
    .filter((block) => block.length > 0)
    .flatMap((block) => [...block, spaceRow(3.5)])

/** As many columns as a room has for tables. */
export function columnsOf(room: PaperBox): PaperBox[] {
  const count = Math.max(1, Math.floor((room.right - room.left + GUTTER) / (COLUMN + GUTTER)))
  const width = (room.right - room.left - GUTTER * (count - 1)) / count
  return Array.from({ length: count }, (_, i) => ({
    left: room.left + i * (width + GUTTER),
    right: room.left + i * (width + GUTTER) + width,
    top: room.top,
    bottom: room.bottom,
  }))
}

function massBlock(sheet: LiftSheet, width: number): Row[] {
  const columns: Column[] = [
    { title: 'Line', share: 46 },
    { title: sheet.massUnit, share: 17, align: 'end', tabular: true },
    { title: '±', share: 12, align: 'end', tabular: true },
    { title: 'How it is known', share: 36 },
  ]
  const { chain } = sheet
  const rows: TableRow[] = [
    ...chain.lines.map((l): TableRow => ({ cells: [l.label, l.figure.text, l.plusMinus?.text ?? '', l.basis] })),
    { cells: [chain.totalLabel, chain.total.text, '', ''], sum: true },
    ...chain.beyond.map((l): TableRow => ({ cells: [l.label, l.figure.text, '', l.basis] })),
  ]
  return [
    headingRow('Load on the hook', width, '± one standard uncertainty'),
    ...tableRows(columns, rows, width),
    ...proseRows(
      `Rated ${sheet.rated.text}; the plan may use ${sheet.allowed.text}. ${sheet.demand.text} ${sheet.massUnit} / ${sheet.allowed.text} = ${sheet.useText}: ${withRef(sheet.percent, sheet.refs.hook)}.`,
      width,
      { weight: 700 },
    ),
    ...proseRows(`Rating: ${sheet.ratingBasis}.`, width, { size: SMALL, ink: 'quiet' }),
  ]
}

function legBlock(sheet: LiftSheet, width: number): Row[] {
  if (sheet.legs.length === 0) return []
  const columns: Column[] = [
    { title: 'Leg', share: 11 },
    { title: 'From, to', share: 24 },
    { title: 'Sling, rated', share: 22 },
    { title: 'off plumb', share: 11, align: 'end', tabular: true },
    { title: `${sheet.forceUnit}`, share: 14, align: 'end', tabular: true },
    { title: 'worst', share: 14, align: 'end', tabular: true },
    { title: 'use', share: 17, align: 'end', tabular: true },
  ]
  const rows = sheet.legs.map(
    (leg): TableRow => ({
      cells: [
        leg.id,
        `${leg.from} → ${leg.to}`,
        `${leg.item}, ${leg.rated.text}`,
        leg.angleText,
        leg.tension.text,
        leg.worst.text,
        withRef(leg.useText, sheet.refs.legs[leg.id] ?? ''),
      ],
      ...underLeg(leg),
    }),
  )
  return [
    headingRow(
      'Legs as the piece hangs',
      width,
      withRef(`hangs ${sheet.tilt} off plumb, worst ${sheet.worstTilt}`, sheet.refs.tilt),
    ),
    ...tableRows(columns, rows, width),
    ...proseRows(sheet.legBalance, width, { size: SMALL, ink: 'quiet' }),
    ...(sheet.legPlaces.length === 0 ? [] : placeRows(sheet, width)),
  ]
}

/** Legs of the tail hook of a turn: across the turn, at the worst pull of their hook. */
function tailLegBlock(sheet: LiftSheet, width: number): Row[] {
  if (sheet.tailLegs.length === 0) return []
  const columns: Column[] = [
    { title: 'Leg', share: 11 },
    { title: 'From, to', share: 28 },
    { title: 'Sling, length, rated', share: 33 },
    { title: 'off plumb', share: 11, align: 'end', tabular: true },
    { title: `worst, ${sheet.forceUnit}`, share: 15, align: 'end', tabular: true },
    { title: 'use', share: 15, align: 'end', tabular: true },
  ]
  const rows = sheet.tailLegs.map(
    (leg): TableRow => ({
      cells: [
        leg.id,
        `${leg.from} → ${leg.to}`,
        `${leg.item}, ${leg.length.text}, ${leg.rated.text}`,
        leg.angleText,
        leg.worst.text,
        withRef(leg.useText, sheet.refs.tailLegs[leg.id] ?? ''),
      ],
    }),
  )
  return [
    headingRow('Legs of the tail hook', width, 'at its worst pull over the turn, angles across it'),
    ...tableRows(columns, rows, width),
  ]
}

function underLeg({ slack, link }: LiftSheet['legs'][number]): { under?: string } {
  const words = [...(slack ? ['slack as planned'] : []), ...(link === '' ? [] : [link])]
  return words.length === 0 ? {} : { under: words.join('; ') }
}

/** Ends of the legs from the hook: enough to take the tensions again from ΣF and ΣM. */
function placeRows(sheet: LiftSheet, width: number): Row[] {
  const columns: Column[] = [
    { title: `from the hook, ${sheet.lengthUnit}`, share: 30 },
    { title: 'x forward', share: 16, align: 'end', tabular: true },
    { title: 'y left', share: 16, align: 'end', tabular: true },
    { title: 'z up', share: 16, align: 'end', tabular: true },
  ]
  return tableRows(
    columns,
    sheet.legPlaces.map((p): TableRow => ({ cells: [p.name, ...p.at] })),
    width,
  )
}

function chainRows(chain: Chain, unit: string, width: number): Row[] {
  const columns: Column[] = [
    { title: 'Line', share: 70 },
    { title: unit, share: 20, align: 'end', tabular: true },
  ]
  return tableRows(
    columns,
    [
      ...chain.lines.map((l): TableRow => ({ cells: [l.label, l.figure.text] })),
      { cells: [chain.totalLabel, chain.total.text], sum: true },
      ...chain.beyond.map((l): TableRow => ({ cells: [l.label, l.figure.text] })),
    ],
    width,
  )
}

function heightBlock(sheet: LiftSheet, width: number): Row[] {
  return [
    headingRow('Height under the hook', width, 'levels from the site datum'),
    ...chainRows(sheet.height.chain, sheet.lengthUnit, width),
    ...proseRows(
      withRef(
        `Hook needed at ${sheet.height.needed.text}, can reach ${sheet.height.available.text} ${sheet.lengthUnit}.`,
        sheet.refs.height,
      ),
      width,
      { weight: 700 },
    ),
  ]
}

function windBlock(sheet: LiftSheet, width: number): Row[] {
  const columns: Column[] = [
    { title: 'What the wind must not reach', share: 76 },
    { title: 'gust', share: 22, align: 'end', tabular: true },
  ]
  return [
    headingRow('Wind', width, sheet.wind.sail),
    ...tableRows(
      columns,
      sheet.wind.terms.map((t): TableRow => ({ cells: [t.label, t.figure.text] })),
      width,
    ),
    ...proseRows(
      withRef(
        `Stop above a gust of ${sheet.wind.limit.text} at the height of the piece, or at the machine's own limit if that is lower.`,
        sheet.refs.wind,
      ),
      width,
      { weight: 700 },
    ),
    ...sheet.wind.workings.flatMap((w) => workingRows(w, width)),
  ]
}

function turningBlock(sheet: LiftSheet, width: number): Row[] {
  if (sheet.turning.length === 0) return []
  const columns: Column[] = [
    { title: 'turned', share: 14, align: 'end', tabular: true },
    { title: withRef(`main, ${sheet.forceUnit}`, sheet.refs.main), share: 22, align: 'end', tabular: true },
    { title: 'its lean', share: 14, align: 'end', tabular: true },
    { title: withRef(`tail, ${sheet.forceUnit}`, sheet.refs.tail), share: 22, align: 'end', tabular: true },
    { title: 'its lean', share: 14, align: 'end', tabular: true },
  ]
  const rows = sheet.turning.map(
    (t): TableRow => ({ cells: [t.angleText, t.main.text, t.mainLean, t.tail.text, t.tailLean] }),
  )
  return [headingRow('Shares of both hooks while turning', width), ...tableRows(columns, rows, width)]
}

function pivotBlock({ pivot, forceUnit, refs }: LiftSheet, width: number): Row[] {
  if (pivot === undefined) return []
  const columns: Column[] = [
    { title: 'turned', share: 14, align: 'end', tabular: true },
    { title: withRef(`hook, ${forceUnit}`, refs.main), share: 24, align: 'end', tabular: true },
    { title: `pivot, ${forceUnit}`, share: 24, align: 'end', tabular: true },
    { title: 'held by', share: 38 },
  ]
  const rows = pivot.stages.map(
    ({ angleText, hook, up, holding, holdBack }): TableRow => ({
      cells: [
        angleText,
        hook.text,
        up.text,
        holding === 'held'
          ? 'hook and pivot'
          : { words: holdBack === undefined ? holding : `${holding}: hold back ${holdBack.text}`, weight: 700 },
      ],
    }),
  )
  return [
    headingRow('Turned about a pivot on the bay', width, 'on a plumb line'),
    ...tableRows(columns, rows, width),
    ...proseRows(pivot.most, width, { weight: 700 }),
  ]
}

function stepBlock(sheet: LiftSheet, width: number): Row[] {
  const rows = sheet.steps.flatMap((step, i) => [
    ...proseRows(step.words, width, { mark: `${i + 1}`, keep: true, keepOn: step.hold !== undefined }),
    ...(step.hold === undefined ? [] : proseRows(`HOLD: ${step.hold}`, width, { mark: 'H', weight: 700, keep: true })),
  ])
  return [headingRow('Steps and hold points', width, `hook time ${sheet.duration.text}`), ...rows]
}

function cautionBlock(sheet: LiftSheet, width: number): Row[] {
  return [
    headingRow('Cautions', width),
    ...sheet.cautions.flatMap((c) => proseRows(c, width, { mark: '–', keep: true })),
    spaceRow(1),
    ...proseRows(sheet.deferral, width, { weight: 700, keep: true }),
    ...(sheet.titleBlock.notice === '' ? [] : proseRows(sheet.titleBlock.notice, width, { weight: 700 })),
  ]
}

function checkBlock(sheet: LiftSheet, width: number): Row[] {
  const columns: Column[] = [
    { title: '', share: 9 },
    { title: 'Check', share: 50 },
    { title: 'demand', share: 18, align: 'end', tabular: true },
    { title: 'limit', share: 18, align: 'end', tabular: true },
    { title: 'use', share: 11, align: 'end', tabular: true },
    { title: '', share: 13 },
  ]
  return [
    headingRow('Checks, the worst first', width, sheet.summary),
    ...tableRows(columns, sheet.checks.map(checkRow), width, SMALL + 0.1),
  ]
}

function checkRow(check: SheetCheck): TableRow {
  const ink = check.verdict === 'fail' ? 'fail' : 'ink'
  const weight = check.verdict === 'pass' ? 400 : 700
  const why = check.verdict === 'open' ? `${check.why}; decides: ${check.decidedBy}` : check.why
  const under = [check.id, ...(why === '' ? [] : [why])].join(' · ')
  return {
    cells: [
      `[${check.number}]`,
      check.title,
      check.demand,
      check.capacity,
      check.useText,
      { words: verdictWord(check.verdict), weight },
    ],
    ink,
    under,
  }
}

function classBlock(sheet: LiftSheet, width: number): Row[] {
  if (sheet.criteria.length === 0) return []
  const columns: Column[] = [
    { title: 'What makes a lift critical', share: 80 },
    { title: '', share: 14 },
  ]
  return [
    headingRow(`Class: ${sheet.critical}`, width),
    ...tableRows(
      columns,
      sheet.criteria.map((c): TableRow => ({ cells: [c.text, { words: c.met, weight: c.met === 'no' ? 400 : 700 }] })),
      width,
      SMALL + 0.1,
    ),
  ]
}

function arrangedBlock(sheet: LiftSheet, width: number): Row[] {
  const columns: Column[] = [
    { title: 'Demanded', share: 46 },
    { title: 'Arranged', share: 54 },
  ]
  const rows = sheet.arranged.map(
    ({ text, what, source }): TableRow => ({
      cells: [text, { words: what, weight: what === OPEN ? 700 : 400 }],
      under: source,
    }),
  )
  return [
    headingRow('Arranged before it', width, 'by documents and functions, not by names'),
    ...tableRows(columns, rows, width, SMALL + 0.1),
  ]
}

function worksBlock({ works, refs }: LiftSheet, width: number): Row[] {
  if (works.length === 0) return []
  const columns: Column[] = [
    { title: 'Rests on', share: 30 },
    { title: 'category', share: 12 },
    { title: 'designed', share: 19 },
    { title: 'checked', share: 19 },
    { title: 'may be loaded', share: 20 },
  ]
  const bold = (words: string) => ({ words, weight: words === OPEN ? (700 as const) : (400 as const) })
  const rows = works.map(
    ({ id, name, category, designed, checked, permitToLoad, approvals }): TableRow => ({
      cells: [`${name} ${id}`, ...[category, designed, checked, permitToLoad].map(bold)],
      ...(approvals.length === 0 ? {} : { under: `approvals: ${approvals.join('; ')}` }),
    }),
  )
  return [
    headingRow(withRef('Temporary works under it', refs.works), width, 'a permit to load after it was seen as built'),
    ...tableRows(columns, rows, width, SMALL + 0.1),
  ]
}

/** To be ticked on the paper, by hand, just before the load is taken. */
function goOrStopBlock(width: number): Row[] {
  return [
    headingRow('Go or stop, just before the hook takes load', width, 'one no stops it'),
    ...GO_OR_STOP.flatMap((question, i) => proseRows(question, width, { mark: `${i + 1}`, keep: true })),
    ...proseRows(`Asked at ______ by ____________________. List ${GO_OR_STOP_SOURCE}.`, width, {
      size: SMALL,
      ink: 'quiet',
    }),
  ]
}

const listBlock = (title: string, words: readonly string[], width: number): Row[] =>
  words.length === 0
    ? []
    : [headingRow(title, width), ...words.flatMap((w) => proseRows(w, width, { mark: '–', size: SMALL + 0.1 }))]

const assumptionBlock = (sheet: LiftSheet, width: number): Row[] => listBlock('Assumptions', sheet.assumptions, width)

const openBlock = (sheet: LiftSheet, width: number): Row[] =>
  listBlock('Open under the figures of this sheet', sheet.open, width)

const nameBlock = ({ inFull = [] }: LiftSheet, width: number): Row[] =>
  listBlock(
    'Names in full',
    inFull.map(({ name }) => name),
    width,
  )

function workingBlock(sheet: LiftSheet, width: number): Row[] {
  if (sheet.workings.length === 0) return []
  return [
    headingRow('Working', width, 'in SI: kg, m, s, N, rad'),
    ...sheet.workings.flatMap((w) => [...workingRows(w, width), spaceRow(0.8)]),
  ]
}

const FORMULA = SMALL + 0.1

function workingRows(working: SheetWorking, width: number): Row[] {
  const line = (words: string, ink: 'ink' | 'quiet' = 'ink'): Row[] => proseRows(words, width, { size: FORMULA, ink })
  return [
    ...proseRows(`${working.title}: ${working.value}`, width, { size: FORMULA, weight: 700, keep: true, keepOn: true }),
    ...(working.symbolic === undefined ? [] : line(working.symbolic)),
    ...working.steps.flatMap((s) => line(s)),
    ...(working.numbers === undefined ? [] : line(working.numbers)),
    ...(working.inputs.length === 0 ? [] : line(working.inputs.join(' · '), 'quiet')),
    ...working.residuals.flatMap((r) => line(`residual, ${r}`, 'quiet')),
    ...working.limits.flatMap((l) => line(l)),
    ...(working.source === '' ? [] : line(working.source, 'quiet')),
  ]
}

function signatureBlock(sheet: LiftSheet, width: number): Row[] {
  const words = sheet.signatures.map((s) =>
    s.signed === '' ? `${s.role}: not signed` : `${s.role}: signed by ${s.signed}`,
  )
  const pairs = Array.from({ length: Math.ceil(words.length / 2) }, (_, i) => words.slice(2 * i, 2 * i + 2))
  return [
    headingRow('Signatures', width, `${sheet.titleBlock.revision} · ${sheet.titleBlock.content}`),
    ...pairs.map(
      (pair, i): Row => ({ ...signatureRow(pair, width, 12.5), ...(i < pairs.length - 1 ? { keep: true } : {}) }),
    ),
  ]
}
