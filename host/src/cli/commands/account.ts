import { readFileSync } from 'node:fs'
import { userInfo } from 'node:os'
import { type Command, Option } from 'commander'
import { accounts, endAccount, putAccount, ROLES, type Role } from '../../accounts/accounts.ts'
import { audited } from '../../store/audit.ts'
import type { StoreDatabase } from '../../store/database.ts'
import { placeIn } from '../../store/place.ts'
import { openStore } from '../../store/store.ts'
import { type Answer, printAnswer, usageProblem } from '../answer.ts'
import { type StoreOptions, storeCommand } from '../onStore.ts'
import { table } from '../table.ts'

interface Options extends StoreOptions {
  role: Role
  end?: boolean
  audit?: boolean
}

/** `account [NAME]`: who may sign in, and as what; the password of a new one comes on standard input. */
export const accountCommand = (): Command =>
  storeCommand(
    'account',
    'who may sign in; with a name, an account is made or changed, its password read from standard input',
  )
    .argument('[name]', 'name that changes and signatures carry')
    .addOption(
      new Option('--role <role>', 'what it may do; each includes those before it').choices(ROLES).default('read'),
    )
    .option('--end', 'end the account instead; what it did stays under its name')
    .option('--audit', 'what was done with accounts and sessions')
    .action(async (name: string | undefined, options: Options) => {
      const store = await openStore(placeIn(options.data))
      try {
        printAnswer(await accountAnswer(store.database, name, options), options)
      } finally {
        await store.close()
      }
    })

async function accountAnswer(database: StoreDatabase, name: string | undefined, options: Options): Promise<Answer> {
  const act = { by: userInfo().username, at: new Date().toISOString() }
  const { role, end, audit } = options
  if (name !== undefined && end && !(await endAccount(database, name, act)))
    return usageProblem('name', `"${name}"`, 'an account that has not ended')
  if (name !== undefined && !end) {
    const password = readFileSync(0, 'utf8').replace(/\r?\n$/, '')
    const problems = await putAccount(database, { name, role, password }, act)
    if (problems.length > 0) return { problems }
  }
  if (audit) {
    const done = await audited(database)
    const rows = done.map((a) => [a.at.slice(0, 19), a.by, a.what, a.about])
    return { json: { audit: done }, text: () => table(titled('at', 'by', 'what', 'about'), rows) }
  }
  const all = await accounts(database)
  const rows = all.map((a) => [a.name, a.role, a.at.slice(0, 10)])
  return { json: { accounts: all }, text: () => table(titled('name', 'may', 'since'), rows) }
}

const titled = (...titles: string[]) => titles.map((title) => ({ title }))
