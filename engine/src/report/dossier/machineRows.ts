import { showNumber, showQuantity, type UnitSystem } from '../../working/quantity.ts'
import { dateText } from '../civil.ts'
import { SMALL } from '../paper/pen.ts'
import { proseRows, type Row, spaceRow, tableRows } from '../paper/rows.ts'
import { temperatureText } from '../temperature.ts'
import type { DossierExamination, DossierPart, DossierWeld } from './opened.ts'
import { ofRecords, pictureRows } from './pictureRows.ts'
import {
  actText,
  column,
  factRows,
  listed,
  measureRows,
  momentText,
  type Print,
  section,
  titleRows,
} from './recordRows.ts'
import type { DossierBolts, DossierClosing, DossierWeighing } from './tightened.ts'

const openWord = (words: string | undefined): string => words ?? 'open'

/** Parts that were opened, with what is accepted on them, what was read, and what became of them. */
export const partRows = (print: Print): Row[] =>
  section(
    'Opened parts',
    'what was read up to a rework or a replacement is of what was there before',
    print.sheet.parts.flatMap((part) => onePart(part, print)),
    'No opened part is on record.',
    print,
  )

function onePart(
  { id, what, kind, parts, opened, measures, decided, attachments, note, checks }: DossierPart,
  print: Print,
): Row[] {
  const reason = decided?.reason === undefined ? '' : `: ${decided.reason}`
  return [
    ...titleRows(`${id}  ${what}`, print),
    ...factRows(
      [
        ['what', listed([kind, parts.join(', '), note ?? ''])],
        ['opened', actText(opened, 'not on record')],
        ['decided', decided === undefined ? 'not decided' : `${decided.as}, ${actText(decided, '')}${reason}`, checks],
      ],
      print,
    ),
    ...measureRows(measures, print),
    ...pictureRows(attachments, print.width),
    spaceRow(2.5),
  ]
}

/** Welds with procedure, heat, wait, examinations and measures (check 80). */
export const weldRows = (print: Print): Row[] =>
  section(
    'Welds',
    'check 80',
    [
      ...print.sheet.welds.flatMap((weld) => oneWeld(weld, print)),
      ...closingRows('welded', 'Joints that the return welds', print),
      ...weldedChangeRows(print),
    ],
    'No weld is on record, the return welds no joint, and of no change it is said that it is welded.',
    print,
  )

function oneWeld(weld: DossierWeld, print: Print): Row[] {
  const { id, what, state, joint, parts, change, procedure, welders, finished, checks, note } = weld
  const ofJoint = joint === undefined ? '' : `closes ${joint}`
  return [
    ...titleRows(`${id}  ${what}`, print),
    ...factRows(
      [
        ['what', listed([state, ofJoint, parts.join(', '), change ?? '', note ?? ''])],
        [
          'procedure, welders',
          listed([
            procedure === undefined
              ? 'procedure open'
              : `${procedure.id}, qualified by ${openWord(procedure.qualifiedBy)}`,
            welders.length === 0 ? 'welders open' : welders.map(welderText).join('; '),
          ]),
          checks.qualified,
        ],
        ['heat', heatText(weld, print.sheet.units), checks.heat],
        [
          'last pass, wait',
          `${finished === undefined ? 'open' : momentText(finished)}; wait ${hoursText(weld.wait)} before any examination but the visual`,
          checks.wait,
        ],
        ...(checks.accepted.length === 0 ? [] : [['examination', 'none is named', checks.accepted] as const]),
      ],
      print,
    ),
    ...examinationRows(weld.examinations, print),
    ...measureRows(weld.measures, print),
    ...pictureRows(weld.attachments, print.width),
    spaceRow(2.5),
  ]
}

const welderText = ({ mark, qualification, until }: DossierWeld['welders'][number]): string =>
  `${mark}, ${qualification ?? 'qualification open'}, until ${until === undefined ? 'open' : dateText(until)}`

function heatText({ preheat, interpass }: DossierWeld, units: UnitSystem): string {
  const heat = (value: number | undefined): string => (value === undefined ? 'open' : temperatureText(value, units))
  const before =
    preheat === undefined
      ? 'preheat open'
      : `preheat at least ${heat(preheat.atLeast)}, lowest read ${heat(preheat.lowest)}`
  return interpass === undefined
    ? before
    : `${before}; between passes at most ${heat(interpass.atMost)}, highest read ${heat(interpass.highest)}`
}

const HOUR = 3600
const hoursText = (seconds: number | undefined): string =>
  seconds === undefined ? 'open' : `${Number((seconds / HOUR).toFixed(2))}\u00a0h`

const percent = (share: number | undefined): string =>
  share === undefined ? 'open' : `${Math.round(share * 1000) / 10}\u00a0%`

const examinationRows = (all: readonly DossierExamination[], { width, judged }: Print): Row[] =>
  all.length === 0
    ? []
    : tableRows(
        [
          column('Examined by', 14),
          column('Level', 18),
          column('Asked, done', 16),
          column('On, by', 28),
          column('Result', 22),
          column('', 15),
        ],
        all.map((e) => ({
          cells: [
            e.id === e.method ? e.method : `${e.method} (${e.id})`,
            openWord(e.level),
            `${percent(e.asked)}, ${percent(e.done)}`,
            e.on === undefined && e.by === undefined
              ? 'open'
              : listed([e.on === undefined ? 'day open' : momentText(e.on), openWord(e.by), e.qualification ?? '']),
            listed([openWord(e.result), e.indications ?? '']),
            e.stands ? judged(e.checks) : { words: 'a later one stands for it', ink: 'quiet' as const },
          ],
        })),
        width,
        SMALL,
      )

/** Bolts as they were tightened (check 77), and the joints of the return that have no record. */
export const boltRows = (print: Print): Row[] =>
  section(
    'Bolt-up records',
    'check 77',
    [
      ...print.sheet.bolts.flatMap((record) => oneBoltRecord(record, print)),
      ...closingRows('bolted', 'Joints that the return closes with bolts', print),
    ],
    'No bolt-up record is kept, and the return closes no joint with bolts.',
    print,
  )

function oneBoltRecord(record: DossierBolts, print: Print): Row[] {
  const { id, joint, by, on, checkedBy, bolts, count, lot, lubricant, tool, rechecked, note, checks } = record
  const until = tool?.calibratedUntil
  const calibrated = until === undefined ? 'calibration open' : `calibrated until ${dateText(until)}`
  return [
    ...titleRows(`${id}  bolts of ${joint}`, print),
    ...factRows(
      [
        [
          'tightened',
          `${bolts} of ${count ?? 'open'} bolts, ${by}, ${dateText(on)}; looked at by ${openWord(checkedBy)}`,
          checks.tightened,
        ],
        ['looked at again', actText(rechecked, 'open')],
        [
          'with',
          listed([
            `lot ${openWord(lot)}`,
            `lubricant ${openWord(lubricant)}`,
            tool === undefined ? 'tool open' : `${tool.what}, ${calibrated}`,
            note ?? '',
          ]),
        ],
        ['preload as measured', sampleText(record, print), checks.sampled],
      ],
      print,
    ),
    ...pictureRows(record.attachments, print.width),
    spaceRow(2.5),
  ]
}

const sampleText = ({ samples }: DossierBolts, { sheet }: Print): string =>
  samples.length === 0
    ? 'none'
    : samples.map(({ bolt, preload }) => `bolt ${bolt}: ${showQuantity(preload, 'N', sheet.units)}`).join('; ')

/** What the return closes in one way: how many joints of each step have a record, and which have none. */
function closingRows(as: DossierClosing['as'], title: string, { sheet, width, judged }: Print): Row[] {
  const own = sheet.closings.filter((c) => c.as === as)
  if (own.length === 0) return []
  const open = own.reduce((n, c) => n + c.open.length, 0)
  const all = own.reduce((n, c) => n + c.joints.length, 0)
  return [
    ...proseRows(`${title}: ${all - open} of ${all} on record, ${open} still open`, width, {
      weight: 700,
      keep: true,
      keepOn: true,
    }),
    ...tableRows(
      [
        column('Step of the return', 30),
        column('On record', 12),
        column('Joints that no record names', 47),
        column('', 15),
      ],
      own.map(({ step, piece, joints, open: missing, checks }) => ({
        cells: [
          `${step}, ${piece}`,
          `${joints.length - missing.length} of ${joints.length}`,
          missing.length === 0 ? 'none' : missing.join(', '),
          judged(checks),
        ],
      })),
      width,
      SMALL,
    ),
  ]
}

/** Changes that are welded to a part, and the welds on record that name them. */
function weldedChangeRows({ sheet, width, judged }: Print): Row[] {
  if (sheet.weldedChanges.length === 0) return []
  const words = { weight: 700, keep: true, keepOn: true } as const
  const without = sheet.weldedChanges.filter(({ welds }) => welds.length === 0).length
  const title = `Changes that are welded: ${sheet.weldedChanges.length}, ${without} without a weld on record`
  return [
    ...proseRows(title, width, words),
    ...tableRows(
      [column('Change', 52), column('On', 18), column('Welds on record', 19), column('', 15)],
      sheet.weldedChanges.map(({ id, what, parts, welds, checks }) => ({
        cells: [
          `${id}: ${what}`,
          parts.join(', '),
          welds.length === 0 ? 'none: to record' : welds.join(', '),
          judged(checks),
        ],
      })),
      width,
      SMALL,
    ),
  ]
}

/** Pieces as they were weighed, against what was expected to hang there. */
export const weighingRows = (print: Print): Row[] =>
  section(
    'Weighings',
    'net of rigging',
    print.sheet.weighings.length === 0
      ? []
      : [
          ...tableRows(
            [
              column('Piece', 26),
              column('Measured, accuracy', 20),
              column('Expected', 14),
              column('On, lift, what it includes', 29),
              column('', 15),
            ],
            print.sheet.weighings.map((w) => weighingCells(w, print)),
            print.width,
            SMALL,
          ),
          ...pictureRows(ofRecords(print.sheet.weighings), print.width),
        ],
    'No weighing is on record.',
    print,
  )

const weighingCells = (w: DossierWeighing, { sheet, judged }: Print) => ({
  cells: [
    `${w.id}: ${w.piece}`,
    `${showQuantity(w.measured, 'kg', sheet.units)} ± ${w.accuracy === undefined ? 'open' : `${showNumber(100 * w.accuracy, 1)}\u00a0%`}`,
    w.stands ? showQuantity(w.expected, 'kg', sheet.units) : 'a later one stands for it',
    listed([w.on === undefined ? 'day open' : dateText(w.on), w.lift ?? '', w.includes ?? '']),
    judged(w.checks),
  ],
})
