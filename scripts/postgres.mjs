import { execFileSync, spawn } from 'node:child_process'
import { chownSync, existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { installedFromDebian } from './debian.mjs'

/** Debian keeps the server's programs here, a folder for each version. */
const programs = '/usr/lib/postgresql'

/** What to do where PostgreSQL is absent and cannot be installed by this user. */
export const postgresAdvice = [
  'The PostgreSQL tests need the PostgreSQL server.',
  'Debian: sudo apt-get install -y --no-install-recommends postgresql',
].join('\n')

/**
 * Folder of the newest installed server's programs.
 *
 * @returns {string | undefined} undefined when there is none
 */
export function postgresPath() {
  const versions = existsSync(programs) ? readdirSync(programs) : []
  const folders = versions.sort((a, b) => Number(b) - Number(a)).map((version) => join(programs, version, 'bin'))
  return folders.find((folder) => existsSync(join(folder, 'initdb')) && existsSync(join(folder, 'postgres')))
}

/**
 * Finds PostgreSQL, or installs Debian's where this user may.
 *
 * @returns {string | undefined} folder of its programs, or undefined after saying what to do
 */
export function postgresInstalled() {
  const found = postgresPath() ?? (installedFromDebian(['postgresql']) ? postgresPath() : undefined)
  if (!found) console.error(postgresAdvice)
  return found
}

/**
 * A server of its own on the loopback address, with an empty database in a folder that goes with it. It refuses to run as
 * root: then it runs as the account that Debian's package makes for it.
 *
 * @typedef {{ url: string, kill: () => Promise<void>, again: () => Promise<void>, stop: () => Promise<void> }} Postgres
 * @returns {Promise<Postgres>} `kill` ends it outright, as a power cut would end its process; `again` starts it on what is left
 */
export async function startPostgres() {
  const bin = postgresPath()
  if (!bin) throw new Error(postgresAdvice)
  const user = process.getuid?.() === 0 ? accountOf('postgres') : undefined
  const folder = mkdtempSync(join(tmpdir(), 'postgres-'))
  if (user) chownSync(folder, user.uid, user.gid)
  const data = join(folder, 'data')
  const init = ['--auth=trust', '--username=tester', '--encoding=UTF8', '--no-locale', '-D', data]
  execFileSync(join(bin, 'initdb'), init, { ...user, cwd: folder, stdio: ['ignore', 'ignore', 'inherit'] })
  const port = await freePort()
  const words = ['-D', data, '-h', '127.0.0.1', '-p', String(port), '-k', folder]
  const start = () => spawn(join(bin, 'postgres'), words, { ...user, cwd: folder, stdio: ['ignore', 'ignore', 'pipe'] })
  let server = await answering(start())
  process.once('exit', () => server.kill('SIGQUIT'))
  return {
    url: `postgres://tester@127.0.0.1:${port}/postgres`,
    kill: () => ended(server, 'SIGKILL'),
    again: async () => {
      server = await answering(start())
    },
    stop: async () => {
      await ended(server, 'SIGINT')
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

/**
 * @param {string} name
 * @returns {{ uid: number, gid: number }}
 */
function accountOf(name) {
  const number = (/** @type {string} */ flag) => Number(execFileSync('id', [flag, name], { encoding: 'utf8' }))
  return { uid: number('-u'), gid: number('-g') }
}

/** @returns {Promise<number>} */
function freePort() {
  return new Promise((resolve, reject) => {
    const probe = createServer().once('error', reject)
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address()
      probe.close(() => resolve(typeof address === 'object' && address !== null ? address.port : 0))
    })
  })
}

/**
 * Waits until a server says that it accepts connections.
 *
 * @typedef {import('node:child_process').ChildProcessByStdio<null, null, import('node:stream').Readable>} Server
 * @param {Server} server
 * @returns {Promise<Server>}
 */
function answering(server) {
  return new Promise((resolve, reject) => {
    let said = ''
    server.stderr.on('data', (/** @type {Buffer} */ text) => {
      said += said.length < 10_000 ? text.toString() : ''
      if (text.includes('ready to accept connections')) resolve(server)
    })
    server.once('exit', () => reject(new Error(`PostgreSQL ended: ${said}`)))
    server.once('error', reject)
  })
}

/**
 * @param {import('node:child_process').ChildProcess} server
 * @param {NodeJS.Signals} signal
 * @returns {Promise<void>}
 */
function ended(server, signal) {
  if (server.exitCode !== null || server.signalCode !== null) return Promise.resolve()
  return new Promise((resolve) => {
    server.once('exit', () => resolve())
    server.kill(signal)
  })
}
