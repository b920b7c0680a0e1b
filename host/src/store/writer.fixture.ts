import { openStore } from './store.ts'

/** Writes changes without end and prints the revision of each once it is acknowledged, until it is killed. */
const store = await openStore(JSON.parse(process.argv[2] as string))
let { revision } = await store.current()
for (;;) {
  const value = { n: revision + 1 }
  const kept = await store.append({
    on: revision,
    patch: [{ op: 'add', path: '', value }],
    by: 'writer',
    why: 'to be killed while writing',
    at: '2031-11-03T00:00:00Z',
  })
  if ('problems' in kept || 'behind' in kept) throw new Error('refused')
  revision = kept.revision
  process.stdout.write(`${revision}\n`)
}
