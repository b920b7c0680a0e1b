import type { AddressInfo } from 'node:net'
import { createAdaptorServer, type ServerType } from '@hono/node-server'
import type { Hono } from 'hono'

/** A server that answers, until closed. */
export type Listening = { address: string; close: () => Promise<void> }

/**
 * Opens an application on the loopback address only.
 *
 * @param port TCP port; 0 takes a free one
 * @returns the address once connections are accepted
 * @throws the system's error when the port is taken
 */
export function listen(app: Hono, port: number): Promise<Listening> {
  const http = createAdaptorServer({ fetch: app.fetch })
  return new Promise((resolve, reject) => {
    http.once('error', reject)
    http.listen(port, '127.0.0.1', () => {
      const { port: taken } = http.address() as AddressInfo
      resolve({ address: `http://127.0.0.1:${taken}`, close: () => closed(http) })
    })
  })
}

function closed(http: ServerType): Promise<void> {
  if ('closeAllConnections' in http) http.closeAllConnections()
  return new Promise((resolve) => http.close(() => resolve()))
}
