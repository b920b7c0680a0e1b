import { openStore } from '../store/store.ts'
import { workOnJobs } from './hands.ts'

/** Works on the jobs of a place with one hand, until it is killed. */
const [place, lease] = process.argv.slice(2)
const store = await openStore(JSON.parse(place as string))
workOnJobs(store, { meshFolder: 'none', hands: 1, lease: Number(lease) })
process.stdout.write('at work\n')
