import { dateText } from '../civil.ts'
import { SMALL } from '../paper/pen.ts'
import { type Cell, proseRows, type Row, spaceRow, tableRows } from '../paper/rows.ts'
import type { DossierPunch, DossierSignature } from './dossierSheet.ts'
import { limitText, readingsText } from './limitWords.ts'
import { ofRecords, pictureRows } from './pictureRows.ts'
import { actText, column, listed, type Print, section } from './recordRows.ts'
import type { DossierService } from './services.ts'
import type { DossierTest } from './tested.ts'

/** Services that were parted and are joined again, those still open counted and named (checks 75 and 76). */
export function serviceRows(print: Print): Row[] {
  const { sheet, width, judged } = print
  const { joinings, services } = sheet
  const all = joinings.reduce((n, j) => n + j.services, 0)
  const open = joinings.reduce((n, j) => n + j.open.length, 0)
  const rows = [
    ...(joinings.length === 0
      ? []
      : [
          ...proseRows(`${all - open} of ${all} joined again, ${open} still open`, width, {
            weight: 700,
            keep: true,
            keepOn: true,
          }),
          ...tableRows(
            [column('Parted at the step', 30), column('Joined', 12), column('Still open', 47), column('', 15)],
            joinings.map((j) => ({
              cells: [
                j.step === undefined ? 'by no step of the order' : `${j.step}, ${j.piece}`,
                `${j.services - j.open.length} of ${j.services}`,
                j.open.length === 0 ? 'none' : j.open.join(', '),
                judged(j.checks),
              ],
            })),
            width,
            SMALL,
          ),
          spaceRow(2.5),
        ]),
    ...(services.length === 0
      ? []
      : tableRows(
          [
            column('Service', 24),
            column('Parted', 22),
            column('Joined', 22),
            column('Tags: off, on, port', 20),
            column('', 16),
          ],
          services.map(serviceCells),
          width,
          SMALL,
        )),
    ...pictureRows(ofRecords(services), width),
  ]
  return section(
    'Services joined again',
    'joined by one, looked at by another, tags and port alike (checks 75 and 76)',
    rows,
    'No service is on record as parted or joined, and the order parts none that comes back.',
    print,
  )
}

const STATES: Readonly<Record<DossierService['state'], Cell>> = {
  joined: { words: 'joined' },
  open: { words: 'open', weight: 700 },
  wrong: { words: 'WRONG', weight: 700, ink: 'fail' },
  scrapped: { words: 'does not come back', ink: 'quiet' },
}

function serviceCells({ id, tag, kind, medium, parted, joined, state, faults }: DossierService) {
  const looked = joined === undefined ? '' : `, looked at by ${joined.checkedBy ?? 'open'}`
  return {
    cells: [
      `${tag === id ? id : `${id}, tag ${tag}`}: ${kind}, ${medium}`,
      actText(parted, 'not on record'),
      `${actText(joined, 'open')}${looked}`,
      [parted?.tag, joined?.tag, joined?.port].map((t) => t ?? 'open').join(', '),
      STATES[state],
    ],
    ...(faults.length === 0 ? {} : { under: faults.join('; ') }),
  }
}

/** Tests in the order in which they may be made, with what keeps each from being passed. */
export const testRows = (print: Print): Row[] =>
  section(
    'Tests',
    'in the order of what rests on what; a limit alone releases nothing',
    print.sheet.tests.length === 0
      ? []
      : tableRows(
          [column('Test', 32), column('After', 10), column('Limit', 20), column('Read, by, on', 26), column('', 18)],
          print.sheet.tests.map((test) => testCells(test, print)),
          print.width,
          SMALL,
        ),
    'No test is planned or on record.',
    print,
  )

const TEST_STATES: Readonly<Record<DossierTest['state'], Cell>> = {
  passed: { words: 'passed' },
  open: { words: 'open', weight: 700 },
  failed: { words: 'FAIL', weight: 700, ink: 'fail' },
}

function testCells(test: DossierTest, { refs }: Print) {
  const { id, system, readings, limit, unit, passLimit, witness, lacks, signatures } = test
  const hold = test.holdPoint ? 'hold point' : ''
  const seen = witness === undefined ? '' : `to be seen by ${witness}`
  const signed = signatures.length === 0 ? [] : [`signed ${signatures.length}×`]
  const { words, ...look } = TEST_STATES[test.state]
  const under = [
    ...lacks.filter((l) => l !== 'nothing is read'),
    ...signed,
    ...(test.result === undefined ? [] : [`said of it: ${test.result}`]),
  ]
  return {
    cells: [
      listed([`${id}  ${system}: ${test.test}`, hold, seen]),
      test.after.join(', '),
      listed([limitText(limit, unit), passLimit ?? '', test.basis ?? '']),
      readingsText(readings),
      { ...look, words: `${words} ${refs(test.checks)}` },
    ],
    ...(under.length === 0 ? {} : { under: under.join('; ') }),
  }
}

/** What was found that is not as it should be, open items first. */
export function punchRows(print: Print): Row[] {
  const { punch } = print.sheet
  const open = punch.filter(({ closed }) => closed === undefined).length
  return section(
    'Punch list',
    punch.length === 0 ? '' : `${open} open, ${punch.length - open} closed; open items first`,
    punch.length === 0
      ? []
      : [
          ...tableRows(
            [
              column('Item', 32),
              column('Found', 20),
              column('Blocks', 12),
              column('Owner, due', 16),
              column('Closed', 24),
            ],
            punch.map((item) => punchCells(item, print)),
            print.width,
            SMALL,
          ),
          ...pictureRows(ofRecords(punch), print.width),
        ],
    'No punch item is on record.',
    print,
  )
}

function punchCells(item: DossierPunch, { refs }: Print) {
  const { id, what, found, blocks, owner, due, closed, parts, services, tests, note, checks } = item
  const isOpen = closed === undefined
  const of = [...parts, ...services, ...tests].join(', ')
  return {
    cells: [
      listed([`${id}  ${what}`, of, note ?? '']),
      actText(found, ''),
      blocks,
      listed([owner ?? 'no owner', due === undefined ? '' : `due ${dateText(due)}`]),
      {
        words: `${isOpen ? 'open' : listed([actText(closed, ''), closed.evidence ?? 'no evidence named'])} ${refs(checks)}`,
        ...(isOpen ? { weight: 700 as const } : {}),
      },
    ],
  }
}

/** Signatures of the store with whether each still stands. */
export function signatureRows(print: Print): Row[] {
  const { signatures } = print.sheet
  return section(
    'Signatures',
    'bound to content: one that is overtaken is none (check 96)',
    signatures === undefined || signatures.length === 0
      ? []
      : tableRows(
          [column('What', 34), column('By, as', 28), column('On', 14), column('State', 12), column('Statement', 20)],
          signatures.map(signatureCells),
          print.width,
          SMALL,
        ),
    signatures === undefined
      ? 'Not asked for: signatures are kept in the store, and this was made from the project file alone.'
      : 'Nothing is signed.',
    print,
  )
}

const signatureCells = ({ kind, subject, by, role, on, state, statement }: DossierSignature) => ({
  cells: [
    `${kind} ${subject}`,
    `${by}, ${role}`,
    dateText(on),
    state === 'stands' ? state : { words: state, weight: 700 as const, ink: 'fail' as const },
    statement,
  ],
})
