import { serveStatic } from '@hono/node-server/serve-static'
import { Hono } from 'hono'
import { secureHeaders } from 'hono/secure-headers'

/**
 * The HTTP application: the workbench's page and the API beside it.
 *
 * @param page folder of the built page
 * @returns an application that does not listen yet
 */
export function server({ page }: { page: string }): Hono {
  const app = new Hono()
  app.use(strictHeaders)
  app.get('/health', (context) => context.json({ status: 'ok' }))
  app.use('*', serveStatic({ root: page }))
  return app
}

const strictHeaders = secureHeaders({
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
  strictTransportSecurity: false,
})
