import { packagesInstalled } from './packages.mjs'
import { pageBuilt } from './page.mjs'

if (!packagesInstalled() || !pageBuilt()) process.exit(1)
process.argv.splice(2, 0, 'serve')
await import('../host/bin/shieldwright.mjs')
