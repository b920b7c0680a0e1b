import { createServer as createSecureServer } from 'node:https'
import type { AddressInfo } from 'node:net'
import { createAdaptorServer, type ServerType } from '@hono/node-server'
import type { Hono } from 'hono'

/** A server that answers, until closed. */
export type Listening = { address: string; close: () => Promise<void> }

/** Where a server listens; the loopback address where none is named. */
export interface ListenOptions {
  host?: string | undefined
  /** Certificate chain and key, PEM. */
  tls?: { cert: string; key: string } | undefined
}

/**
 * Opens an application on the loopback address, or on another one over TLS.
 *
 * @param port TCP port; 0 takes a free one
 * @returns the address once connections are accepted
 * @throws the system's error when the port is taken
 */
export function listen(app: Hono, port: number, { host = '127.0.0.1', tls }: ListenOptions = {}): Promise<Listening> {
  const secure = tls && { createServer: createSecureServer, serverOptions: { ...tls, minVersion: 'TLSv1.2' as const } }
  const http = createAdaptorServer({ fetch: app.fetch, ...secure })
  return new Promise((resolve, reject) => {
    http.once('error', reject)
    http.listen(port, host, () => {
      const { port: taken } = http.address() as AddressInfo
      resolve({
        address: `${tls ? 'https' : 'http'}://${host.includes(':') ? `[${host}]` : host}:${taken}`,
        close: () => closed(http),
      })
    })
  })
}

function closed(http: ServerType): Promise<void> {
  if ('closeAllConnections' in http) http.closeAllConnections()
  return new Promise((resolve) => http.close(() => resolve()))
}
