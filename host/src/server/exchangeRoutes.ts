import type { Derivation, Stages } from '@shieldwright/engine'
import { isMoment } from '@shieldwright/engine/model/index.ts'
import { SHEET_KINDS, type SheetKind } from '@shieldwright/engine/model/intake/index.ts'
import { isTableName, TABLE_NAMES } from '@shieldwright/engine/report/tables/index.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { type Context, Hono } from 'hono'
import { calendarFile, csvFile, type ExchangeIssue, workbook } from '../exchange/files.ts'
import { takeIn } from '../exchange/takeIn.ts'
import { takeTicks } from '../exchange/takeTicks.ts'
import type { Here } from './api.ts'
import type { Live } from './live.ts'

const LONGEST_WEEKS = 52

/**
 * Routes under `/api/exchange`: `NAME.csv` for each table, `tables.xlsx`, `dates.ics`, with `units` and `weeks` in the query; and
 * `POST /import?of=progress` with the bytes of a table, for the patch that it would be, and
 * `POST /ticks` for the patch that ticks from the site would be. Nothing is changed by either.
 */
export function exchangeRoutes(live: Live, here: Here): Hono {
  const routes = new Hono()
  routes.get('/:file{[a-z-]+\\.(csv|xlsx|ics)}', (context) => sent(context, live, here))
  routes.post('/import', (context) => imported(context, live))
  routes.post('/ticks', (context) => ticked(context, live, here))
  return routes
}

async function sent(context: Context, live: Live, { clock }: Here) {
  const { revision, derivation } = await live.now()
  const { stages, problems } = derivation.derived
  if (stages === undefined) return context.json({ problems }, 409)
  const { units, weeks = '3' } = context.req.query()
  if (!/^\d+$/.test(weeks) || Number(weeks) < 1 || Number(weeks) > LONGEST_WEEKS)
    return refused(context, 400, 'weeks', weeks, `a whole number from 1 to ${LONGEST_WEEKS}`)
  const issue: ExchangeIssue = {
    units: units === 'US' ? 'US' : 'SI',
    at: clock().toISOString(),
    sequence: revision,
    weeks: Number(weeks),
  }
  const file = context.req.param('file') ?? ''
  const made = await fileOf(stages, file, issue)
  if (made === undefined)
    return refused(context, 404, 'file', file, `tables.xlsx, dates.ics, or .csv of ${TABLE_NAMES.join(', ')}`)
  return context.body(made.content, 200, {
    'content-type': made.type,
    'content-disposition': `attachment; filename="${file}"`,
  })
}

async function fileOf(stages: Stages, file: string, issue: ExchangeIssue) {
  const name = file.replace(/\.[a-z]+$/, '')
  if (file === 'dates.ics') return { type: 'text/calendar; charset=utf-8', content: calendarFile(stages, issue) }
  if (file.endsWith('.csv') && isTableName(name))
    return { type: 'text/csv; charset=utf-8', content: csvFile(stages, name, issue) }
  if (file !== 'tables.xlsx') return undefined
  const bytes = await workbook(stages, issue)
  return { type: WORKBOOK, content: bytes.slice().buffer as ArrayBuffer }
}

const WORKBOOK = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet'

async function imported(context: Context, live: Live) {
  const { of = 'progress', sheet, dataDate, name = 'table' } = context.req.query()
  if (!isSheetKind(of)) return refused(context, 400, 'of', of, SHEET_KINDS.join(', '))
  if (dataDate !== undefined && !isMoment(dataDate))
    return refused(context, 400, 'dataDate', dataDate, 'a date, or local time on it, such as 2032-03-05T18:00')
  const { revision, derivation } = await live.now()
  const { stages, problems } = derivation.derived
  if (stages === undefined) return context.json({ problems }, 409)
  const bytes = new Uint8Array(await context.req.arrayBuffer())
  const taken = await takeIn(derivation as Derivation, stages, { bytes, name, of, sheet, dataDate })
  return 'problems' in taken ? context.json(taken, 400) : context.json({ revision, ...taken })
}

/** Ticks from the site as the patch that they would be. */
async function ticked(context: Context, live: Live, { clock }: Here) {
  const dataDate = context.req.query('dataDate')
  if (dataDate !== undefined && !isMoment(dataDate))
    return refused(context, 400, 'dataDate', dataDate, 'a date, or local time on it, such as 2032-03-05T18:00')
  const { revision, derivation } = await live.now()
  const { stages, problems } = derivation.derived
  if (stages === undefined) return context.json({ problems }, 409)
  const bytes = new Uint8Array(await context.req.arrayBuffer())
  const asked = { bytes, now: clock(), dataDate, also: context.req.queries('also') }
  const taken = takeTicks(derivation as Derivation, stages, asked)
  return 'problems' in taken ? context.json(taken, 400) : context.json({ revision, ...taken })
}

const isSheetKind = (text: string): text is SheetKind => (SHEET_KINDS as readonly string[]).includes(text)

function refused(context: Context, status: 400 | 404, pointer: string, found: string, expected: string) {
  const problem: Problem = { pointer, found: `"${found}"`, expected }
  return context.json({ problems: [problem] }, status)
}
