import { openStore } from './store.ts'

/** Writes changes without end, some of them at once, and prints the revision of each once it is acknowledged, until it is killed. */
const IN_FLIGHT = 8
const store = await openStore(JSON.parse(process.argv[2] as string), 20)
const said = { by: 'writer', why: 'to be killed while writing', at: '2031-11-03T00:00:00Z' }
const waiting: Promise<void>[] = []
for (let { revision: on } = await store.current(); ; on++) {
  const n = on + 1
  const first = { op: 'add', path: '', value: { n, half: n / 2 } } as const
  const later = [
    { op: 'replace', path: '/n', value: n } as const,
    { op: 'replace', path: '/half', value: n / 2 } as const,
  ]
  waiting.push(store.append({ on, patch: on === 0 ? [first] : later, ...said }).then(told))
  if (waiting.length >= IN_FLIGHT) await waiting.shift()
}

function told(kept: object): void {
  if ('problems' in kept || 'behind' in kept) throw new Error('refused')
  process.stdout.write(`${(kept as { revision: number }).revision}\n`)
}
