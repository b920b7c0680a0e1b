import { serveStatic } from '@hono/node-server/serve-static'
import { Hono } from 'hono'
import { secureHeaders } from 'hono/secure-headers'
import { faultAnswer } from './faultAnswer.ts'
import { onlyFromHere } from './guard.ts'

/** What is served. */
export interface Served {
  /** Folder of the built page. */
  page: string
  /** Routes under `/api`, once there is a project to tell of. */
  api?: Hono
  /** Who may come in; everybody on this machine where there is none. */
  gate?: Hono
  /** Names beside the loopback ones under which it is reached. */
  names?: readonly string[]
  /** It is reached over TLS only. */
  secure?: boolean
}

/**
 * The HTTP application: the workbench's page and the API beside it.
 *
 * @returns an application that does not listen yet
 */
export function server({ page, api, gate, names, secure = false }: Served): Hono {
  const app = new Hono()
  app.use(strictHeaders(secure))
  app.use(onlyFromHere(names))
  if (gate !== undefined) app.route('/', gate)
  app.get('/health', (context) => context.json({ status: 'ok' }))
  if (api !== undefined) app.route('/api', api)
  app.use('*', serveStatic({ root: page }))
  app.onError(faultAnswer)
  return app
}

const strictHeaders = (secure: boolean) =>
  secureHeaders({
    contentSecurityPolicy: {
      defaultSrc: ["'self'"],
      scriptSrc: ["'self'", "'wasm-unsafe-eval'"],
      styleSrc: ["'self'", "'unsafe-inline'"],
      imgSrc: ["'self'", 'data:', 'blob:'],
      workerSrc: ["'self'", 'blob:'],
      objectSrc: ["'none'"],
      baseUri: ["'none'"],
      formAction: ["'self'"],
      frameAncestors: ["'none'"],
    },
    xFrameOptions: 'DENY',
    referrerPolicy: 'no-referrer',
    strictTransportSecurity: secure,
  })
