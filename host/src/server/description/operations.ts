import { SHEET_KINDS } from '@shieldwright/engine/model/intake/index.ts'
import { TABLE_NAMES } from '@shieldwright/engine/report/tables/index.ts'
import { z } from 'zod'
import { ROLES } from '../../accounts/accounts.ts'
import { jobRequest } from '../jobRequest.ts'
import { issueRequest } from '../jobRoutes.ts'
import { signatureRequest, withdrawalRequest } from '../signatureRoutes.ts'
import { baselineRequest } from '../storeRoutes.ts'
import {
  auditForm,
  baselinesForm,
  behindForm,
  changeBody,
  comparedForm,
  derivedForm,
  jobForm,
  logForm,
  patchBody,
  revision,
  signatureForm,
  takenForm,
  ticksForm,
  whatIfForm,
} from './forms.ts'
import { type Operation, problemsForm } from './operation.ts'

const units = z.enum(['SI', 'US']).optional().describe('Units of what is printed; SI where none are named')
const page = z.int().min(1).max(999).optional().describe('Page of the document, as SVG')
const paper = (...names: [string, ...string[]]) => z.enum(names).optional()
const after = z.int().min(0).optional().describe('A revision; the first changes otherwise')
const hash = z
  .string()
  .regex(/^[0-9a-f]{64}$/)
  .describe('SHA-256, hexadecimal')

const bytes = (...types: string[]) => ({ types })
const PDF = 'application/pdf'
const SVG = 'image/svg+xml'
const EVENTS = bytes('text/event-stream')

/** A document to print: as PDF, or a page of it as SVG. */
function paperOperation(kind: string, name: z.ZodType, does: string, papers: [string, ...string[]]): Operation {
  return {
    method: 'get',
    path: `/api/report/${kind}/{file}`,
    does,
    params: { file: name },
    query: { units, page, paper: paper(...papers), step: z.string().optional() },
    answers: { 200: bytes(PDF, SVG) },
  }
}

const named = (what: string) => z.string().describe(`${what}, and .pdf or .svg`)

/** Every request that the server answers, its page apart. */
export const operations: readonly Operation[] = [
  {
    method: 'get',
    path: '/health',
    does: 'Whether the server answers',
    answers: { 200: z.object({ status: z.literal('ok') }) },
  },
  { method: 'get', path: '/sign-in', does: 'The page to sign in on', answers: { 200: bytes('text/html') } },
  {
    method: 'post',
    path: '/sign-in',
    does: 'Signs in: a session as a cookie',
    body: {
      type: 'application/x-www-form-urlencoded',
      form: z.object({ name: z.string(), password: z.string() }),
    },
    answers: { 303: bytes(), 401: bytes('text/html'), 411: problemsForm, 415: problemsForm },
  },
  { method: 'post', path: '/sign-out', does: 'Ends the session', answers: { 303: bytes() } },
  {
    method: 'get',
    path: '/api/openapi.json',
    does: 'This description',
    answers: { 200: z.looseObject({ openapi: z.string(), paths: z.looseObject({}) }) },
  },
  {
    method: 'get',
    path: '/api/audit',
    does: 'What was done by whom beyond changes and signatures, the latest first; for an approver',
    answers: { 200: auditForm },
  },
  {
    method: 'get',
    path: '/api/me',
    does: 'Who asks; with the role of their account, on a server that has accounts',
    answers: { 200: z.object({ name: z.string(), role: z.enum(ROLES).optional() }) },
  },
  {
    method: 'get',
    path: '/api/project',
    does: 'The project file at the latest revision',
    answers: { 200: z.object({ revision, document: z.unknown() }) },
  },
  {
    method: 'post',
    path: '/api/change',
    does: 'Keeps a change; on an older revision it is merged where it meets nothing, and else comes back with what changed under it; one that changes nothing is answered with the latest revision, and is none',
    body: changeBody,
    answers: {
      200: z.object({ revision, under: z.array(z.unknown()).optional(), same: z.literal(true).optional() }),
      409: behindForm,
    },
  },
  {
    method: 'post',
    path: '/api/preview',
    does: 'What would follow from a change; nothing is kept',
    body: patchBody,
    answers: { 200: whatIfForm },
  },
  { method: 'get', path: '/api/derived', does: 'Every check with its figures', answers: { 200: derivedForm } },
  {
    method: 'get',
    path: '/api/summary',
    does: 'What the page shows first',
    answers: { 200: z.looseObject({ revision, problems: z.array(z.unknown()) }) },
  },
  {
    method: 'get',
    path: '/api/working',
    does: 'The working of a side of a check, or of an input under it',
    query: {
      check: z.string(),
      side: z.enum(['demand', 'capacity']).optional(),
      path: z.string().optional().describe('Names of inputs as a JSON Pointer'),
      units,
    },
    answers: { 200: z.looseObject({ working: z.looseObject({}), below: z.array(z.string()) }) },
  },
  {
    method: 'get',
    path: '/api/meshes/{hash}',
    does: 'A mesh in use: its corners and faces',
    params: { hash },
    answers: { 200: bytes('application/octet-stream') },
  },
  {
    method: 'get',
    path: '/api/log',
    does: 'The changes after a revision; with values=yes what each wrote and what takes it back',
    query: { after, values: z.enum(['yes']).optional() },
    answers: { 200: logForm },
  },
  {
    method: 'get',
    path: '/api/changes',
    does: 'Changes as they are kept, as server-sent events',
    query: { after },
    answers: { 200: EVENTS },
  },
  {
    method: 'get',
    path: '/api/report',
    does: 'What is printed on a document that is made now',
    answers: { 200: z.object({ revision, contentHash: hash, date: z.string() }) },
  },
  paperOperation('site', named('plan or sections'), 'Drawings of the site', ['A1', 'A2', 'A3']),
  paperOperation('rigging', named('A lift'), 'Rigging of a lift', ['A4']),
  paperOperation('bolt-up', named('A step of the return, or all'), 'Bolt-up sheets', ['A4', 'Letter']),
  paperOperation('daily', named('A day of the diary, or last'), 'The daily report', ['A4', 'Letter']),
  paperOperation('dossier', named('dossier'), 'The commissioning dossier', ['A4', 'Letter']),
  {
    method: 'get',
    path: '/api/report/dossier.json',
    does: 'The commissioning dossier as data: records, their limits and verdicts, with the ids of their checks',
    query: { units },
    answers: { 200: z.looseObject({ lines: z.array(z.unknown()), checks: z.array(z.unknown()) }) },
  },
  {
    ...paperOperation('stakeholders', named('stakeholders'), 'One page for people who are not engineers', [
      'A4',
      'Letter',
    ]),
    query: {
      units,
      page,
      paper: paper('A4', 'Letter'),
      step: z.string().optional(),
      since: z
        .string()
        .optional()
        .describe('Revision of the issue before, or its name; the last that was given a name otherwise'),
    },
  },
  paperOperation('order', named('order'), 'The order and what waits for what', ['A4', 'Letter']),
  {
    ...paperOperation('tags', named('tags'), 'Tags of services with their symbols', ['A4', 'Letter']),
    query: {
      units,
      page,
      paper: paper('A4', 'Letter'),
      step: z.string().optional(),
      base: z
        .string()
        .optional()
        .describe('Address of the workbench that each symbol opens its line at; the tag alone otherwise'),
    },
  },
  paperOperation('programme', named('programme'), 'The programme', ['A3']),
  paperOperation('risk', named('restart'), 'The restart as simulated', ['A3']),
  paperOperation('lift', named('A lift'), 'The sheet of a lift', ['A3', 'A4', 'Letter']),
  {
    method: 'get',
    path: '/api/report/on-site.html',
    does: 'The lists and sheets of a lift, a step, or the shift at a moment, as one file that opens without a network',
    query: {
      lift: z.string().optional(),
      step: z.string().optional(),
      at: z.string().optional().describe('A date, or local time on it; the data date otherwise, else today'),
      units,
    },
    answers: { 200: bytes('text/html; charset=utf-8'), 409: z.looseObject({ problems: z.array(z.unknown()) }) },
  },
  ...(['pdf', 'svg'] as const).map(
    (kind): Operation => ({
      method: 'get',
      path: `/api/report/campaign.${kind}`,
      does: `The campaign diagram as ${kind.toUpperCase()}`,
      query: {
        units,
        paper: z.string().optional().describe('A paper size, such as A2'),
        simulated: z.string().optional().describe('Four instants in rising order, UTC milliseconds, between commas'),
      },
      answers: { 200: bytes(kind === 'pdf' ? PDF : SVG) },
    }),
  ),
  {
    method: 'get',
    path: '/api/exchange/{file}',
    does: 'Tables and dates as files',
    params: { file: z.string().describe(`tables.xlsx, dates.ics, or .csv of ${TABLE_NAMES.join(', ')}`) },
    query: { units, weeks: z.int().min(1).max(52).optional() },
    answers: {
      200: bytes(
        'text/csv; charset=utf-8',
        'text/calendar; charset=utf-8',
        'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
      ),
      409: z.looseObject({ problems: z.array(z.unknown()) }),
    },
  },
  {
    method: 'post',
    path: '/api/exchange/import',
    does: 'A table, CSV or XLSX, as the patch that it would be; nothing is kept',
    query: {
      of: z.enum(SHEET_KINDS).optional(),
      sheet: z.string().optional(),
      dataDate: z.string().optional().describe('A date, or local time on it'),
      name: z.string().optional(),
    },
    body: { type: 'application/octet-stream' },
    answers: { 200: takenForm, 409: z.looseObject({ problems: z.array(z.unknown()) }) },
  },
  {
    method: 'post',
    path: '/api/exchange/ticks',
    does: 'Ticks from an on-site file as the patch that they would be, with every line that is not taken; nothing is kept',
    query: {
      dataDate: z.string().optional().describe('A date, or local time on it'),
      also: z
        .string()
        .optional()
        .describe('Address of a line that is taken although it has changed; may be given again'),
    },
    body: { type: 'application/octet-stream' },
    answers: { 200: ticksForm, 409: z.looseObject({ problems: z.array(z.unknown()) }) },
  },
  {
    method: 'post',
    path: '/api/jobs',
    does: 'Starts a long computation; one that was made before is answered at once',
    body: jobRequest,
    answers: { 200: jobForm, 202: jobForm },
  },
  {
    method: 'get',
    path: '/api/jobs/{id}',
    does: 'A job as it stands',
    params: { id: z.string() },
    answers: { 200: jobForm },
  },
  {
    method: 'get',
    path: '/api/jobs/{id}/events',
    does: 'Every change of a job until it has ended, as server-sent events',
    params: { id: z.string() },
    answers: { 200: EVENTS },
  },
  {
    method: 'get',
    path: '/api/jobs/{id}/book.pdf',
    does: 'The campaign book that a job made',
    params: { id: z.string() },
    answers: { 200: bytes(PDF) },
  },
  {
    method: 'post',
    path: '/api/jobs/{id}/issue',
    does: 'Puts the campaign book that a job made on record as an issue: its file is kept, and the project says what went out',
    params: { id: z.string() },
    body: issueRequest,
    answers: { 200: z.object({ revision, letter: z.string(), file: hash }), 409: problemsForm },
  },
  {
    method: 'delete',
    path: '/api/jobs/{id}',
    does: 'Asks a job to stop',
    params: { id: z.string() },
    answers: { 200: z.object({ cancelling: z.literal(true) }) },
  },
  { method: 'get', path: '/api/baselines', does: 'Names of revisions', answers: { 200: baselinesForm } },
  {
    method: 'post',
    path: '/api/baselines',
    does: 'Gives a revision a name for good',
    body: baselineRequest,
    answers: { 201: baselinesForm },
  },
  {
    method: 'get',
    path: '/api/compare',
    does: 'What differs between two revisions, and what follows from it',
    query: {
      from: z.string().describe('A revision, its name, or "now"'),
      to: z.string().optional().describe('The same; now where none is named'),
    },
    answers: { 200: comparedForm },
  },
  {
    method: 'get',
    path: '/api/signatures',
    does: 'Every signature, and whether it still stands',
    answers: { 200: z.object({ revision, you: z.string(), signatures: z.array(signatureForm) }) },
  },
  {
    method: 'post',
    path: '/api/signatures',
    does: 'Signs what is shown at a revision',
    body: signatureRequest,
    answers: { 201: z.object({ signature: signatureForm }) },
  },
  {
    method: 'post',
    path: '/api/signatures/{id}/withdraw',
    does: 'Takes a signature back; it stays in the record. By its signer, or by an account that may give one of its kind',
    params: { id: z.string() },
    body: withdrawalRequest,
    answers: { 200: z.object({ withdrawn: z.literal(true) }) },
  },
  {
    method: 'get',
    path: '/api/attachments',
    does: 'Every file beside the project',
    answers: { 200: z.object({ attachments: z.array(z.looseObject({ hash, name: z.string(), size: z.int() })) }) },
  },
  {
    method: 'post',
    path: '/api/attachments',
    does: 'Keeps a file by the hash of its bytes; one that is said to have another hash is refused',
    query: { name: z.string().min(1).max(200), hash: hash.optional() },
    body: { type: 'application/octet-stream' },
    answers: { 201: z.looseObject({ hash, name: z.string(), size: z.int() }) },
  },
  {
    method: 'get',
    path: '/api/attachments/{hash}',
    does: 'A file beside the project',
    params: { hash },
    answers: { 200: bytes(PDF, 'image/png', 'image/jpeg', 'image/webp', 'application/octet-stream') },
  },
  {
    method: 'get',
    path: '/api/verification',
    does: 'The verification cases of a function, run now; or what the cases of a stage call',
    query: { function: z.string().max(120).optional(), stage: z.string().max(120).optional() },
    answers: {
      200: z.looseObject({ cases: z.array(z.unknown()).optional(), functions: z.array(z.unknown()).optional() }),
    },
  },
]
