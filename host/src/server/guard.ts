import type { MiddlewareHandler } from 'hono'

const loopback = new Set(['127.0.0.1', 'localhost', '[::1]'])

/**
 * Answers only what was addressed to this machine by its loopback name, or by a name that it was opened under, and changes nothing for another site's page:
 * a foreign page can make a browser send requests here, yet not under this name nor with this origin.
 */
export const onlyFromHere =
  (names: readonly string[] = []): MiddlewareHandler =>
  async (context, next) => {
    const { hostname, origin } = new URL(context.req.url)
    if (!loopback.has(hostname) && !names.includes(hostname))
      return context.json({ problems: [problem('host', hostname, '127.0.0.1')] }, 403)
    const from = context.req.header('origin')
    if (from !== undefined && from !== origin) return context.json({ problems: [problem('origin', from, origin)] }, 403)
    return next()
  }

const problem = (pointer: string, found: string, expected: string) => ({ pointer, found, expected })
