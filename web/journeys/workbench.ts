import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { type Browser, type BrowserContext, chromium } from 'playwright-core'
import { chromiumAdvice, chromiumPath } from '../../scripts/chromium.mjs'

const command = fileURLToPath(new URL('../../host/bin/shieldwright.mjs', import.meta.url))

/** A running server and a browser beside it, until closed. */
export type Workbench = { address: string; context: BrowserContext; close: () => Promise<void> }

/**
 * Starts the workbench on a free port with a store of its own, as a user does, and a browser beside it.
 *
 * @param args further words for `serve`
 */
export async function openWorkbench(...args: string[]): Promise<Workbench> {
  const data = mkdtempSync(join(tmpdir(), 'workbench-'))
  const serving = spawn(process.execPath, [command, 'serve', '--port', '0', '--data', data, ...args], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const address = await addressOf(serving)
  const browser = await openBrowser()
  const close = async () => {
    await browser.close()
    serving.kill()
  }
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } })
  // against waiting for ever, not on speed
  context.setDefaultTimeout(90_000)
  return { address, context, close }
}

/** Headless Chromium with software WebGL 2; one set of flags, so that pictures compare. */
function openBrowser(): Promise<Browser> {
  const executablePath = chromiumPath()
  if (!executablePath) throw new Error(chromiumAdvice)
  return chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--use-gl=angle',
      '--use-angle=swiftshader',
      '--enable-unsafe-swiftshader',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  })
}

async function addressOf(serving: ChildProcess): Promise<string> {
  if (!serving.stdout) throw new Error('the server has no output')
  for await (const line of createInterface({ input: serving.stdout })) {
    const address = /http:\/\/\S+/.exec(line)?.[0]
    if (!address) continue
    serving.stdout.resume() // Later output is read and dropped, so that the server never waits for a reader.
    return address
  }
  throw new Error('the server ended before it printed its address')
}
