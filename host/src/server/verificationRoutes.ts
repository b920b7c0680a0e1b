import { type Context, Hono } from 'hono'
import { caseFiles, casesOf, functionsOf } from '../../../verification/verify.ts'

const LONGEST_NAME = 120

/**
 * Routes under `/api/verification`: `?function=` runs every case that calls this formula or function, now; `?stage=` names
 * what the cases of a stage call.
 */
export function verificationRoutes(): Hono {
  const routes = new Hono()
  routes.get('/', answered)
  return routes
}

function answered(context: Context) {
  const { function: name = '', stage = '' } = context.req.query()
  if (name === '' && stage === '') return refused(context, 'nothing', 'function=ID or stage=NAME')
  if (name.length > LONGEST_NAME || stage.length > LONGEST_NAME)
    return refused(context, 'a longer name', `at most ${LONGEST_NAME} characters`)
  const files = caseFiles()
  return context.json(name === '' ? { functions: functionsOf(files, stage) } : { cases: casesOf(files, name) })
}

const refused = (context: Context, found: string, expected: string) =>
  context.json({ problems: [{ pointer: '', found, expected }] }, 400)
