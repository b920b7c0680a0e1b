import { randomBytes } from 'node:crypto'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { sha256 } from '../sha256.ts'
import { keepAudit } from '../store/audit.ts'
import type { StoreDatabase } from '../store/database.ts'
import { hashedPassword, isPassword, passwordFault, SHORTEST_PASSWORD } from './password.ts'

/** What an account may do; each may what those before it may: look · change the project · sign sheets and tests, and say that a document went out · sign permits and hold points. */
export const ROLES = ['read', 'edit', 'engineer', 'approver'] as const
export type Role = (typeof ROLES)[number]

/** True when a role may do what another is needed for. */
export const mayAs = (role: Role, needed: Role): boolean => ROLES.indexOf(role) >= ROLES.indexOf(needed)

/** Someone who may sign in. */
export interface Account {
  name: string
  role: Role
  at: string
}

/** Who does something with accounts, and when. */
interface Act {
  by: string
  at: string
}

/** Accounts that may sign in, by name. */
export async function accounts({ tables }: StoreDatabase): Promise<Account[]> {
  const rows = await tables
    .selectFrom('account')
    .select(['name', 'role', 'at'])
    .where('ended', '=', '')
    .orderBy('name')
    .execute()
  return rows.map((row) => ({ ...row, role: row.role as Role }))
}

/** True once an account was made: from then on one has to sign in, also where the last account has ended. */
export async function isGuarded({ tables }: StoreDatabase): Promise<boolean> {
  return (await tables.selectFrom('account').select('name').limit(1).execute()).length > 0
}

/** Makes an account, or gives one a new role and password; its sessions end. */
export async function putAccount(
  database: StoreDatabase,
  { name, role, password }: { name: string; role: Role; password: string },
  act: Act,
): Promise<readonly Problem[]> {
  const problems = accountProblems(name, password)
  if (problems.length > 0) return problems
  const row = { name, role, password: await hashedPassword(password), at: act.at, by: act.by, ended: '' }
  await database.tables.transaction().execute(async (step) => {
    await step.deleteFrom('session').where('account', '=', name).execute()
    await step.deleteFrom('account').where('name', '=', name).execute()
    await step.insertInto('account').values(row).execute()
  })
  await keepAudit(database, { ...act, what: 'account', about: `${name} may ${role}` })
  return []
}

/** Ends an account and its sessions; what it did stays under its name. False when there is none. */
export async function endAccount(database: StoreDatabase, name: string, act: Act): Promise<boolean> {
  const { tables } = database
  await tables.deleteFrom('session').where('account', '=', name).execute()
  const [result] = await tables
    .updateTable('account')
    .set({ ended: act.at })
    .where('name', '=', name)
    .where('ended', '=', '')
    .execute()
  const ended = Number(result?.numUpdatedRows ?? 0) > 0
  if (ended) await keepAudit(database, { ...act, what: 'account', about: `${name} ended` })
  return ended
}

function accountProblems(name: string, password: string): Problem[] {
  const fault = passwordFault(password)
  return [
    ...(/^[\p{L}\d][\p{L}\d ._@-]{0,79}$/u.test(name)
      ? []
      : [{ pointer: 'name', found: `"${name.slice(0, 90)}"`, expected: 'a name of letters, digits, space and ._@-' }]),
    ...(fault === undefined
      ? []
      : [{ pointer: 'password', found: fault, expected: `${SHORTEST_PASSWORD} to 200 characters` }]),
  ]
}

/** Hours that a session lasts: a long shift. */
const SESSION_HOURS = 14

/** Opens a session where name and password are right: the token is told once, and only its hash is kept. */
export async function openSession(
  database: StoreDatabase,
  { name, password, from }: { name: string; password: string; from: string },
  now: Date,
): Promise<{ token: string; until: Date } | undefined> {
  const [row] = await database.tables
    .selectFrom('account')
    .selectAll()
    .where('name', '=', name)
    .where('ended', '=', '')
    .execute()
  // A name that is not there takes as long as a wrong password, so that names cannot be tried out.
  const right = await isPassword(password, row?.password ?? NOBODY)
  const at = now.toISOString()
  if (row === undefined || !right) {
    await keepAudit(database, { by: name.slice(0, 80), at, what: 'refused', about: `sign-in from ${from}` })
    return undefined
  }
  const token = randomBytes(32).toString('base64url')
  const until = new Date(now.getTime() + SESSION_HOURS * 3_600_000)
  await database.tables.deleteFrom('session').where('until', '<', at).execute()
  const session = { token: sha256(token), account: name, until: until.toISOString() }
  if (!(await keptSession(database, session, row.password))) return undefined
  await keepAudit(database, { by: name, at, what: 'signed in', about: `from ${from}` })
  return { token, until }
}

/**
 * Keeps a session, unless the account has ended or has another password by now: to try one takes a good part of a second, and
 * what was ended meanwhile must not be entered by who began to try before. False where it was not kept.
 */
async function keptSession(
  { tables }: StoreDatabase,
  session: { token: string; account: string; until: string },
  password: string,
): Promise<boolean> {
  return tables.transaction().execute(async (step) => {
    await step.insertInto('session').values(session).execute()
    const [same] = await step
      .selectFrom('account')
      .select('name')
      .where('name', '=', session.account)
      .where('password', '=', password)
      .where('ended', '=', '')
      .execute()
    if (same === undefined) await step.deleteFrom('session').where('token', '=', session.token).execute()
    return same !== undefined
  })
}

/** The hash of no password, at the same work. */
const NOBODY = `scrypt$${2 ** 17}$8$1$${'A'.repeat(22)}==$${'A'.repeat(43)}=`

/** Who a session's token stands for; undefined for one that is forged, ended or past its time. */
export async function sessionAccount(
  { tables }: StoreDatabase,
  token: string,
  now: Date,
): Promise<Account | undefined> {
  const [row] = await tables
    .selectFrom('session')
    .innerJoin('account', 'account.name', 'session.account')
    .select(['account.name', 'account.role', 'account.at'])
    .where('session.token', '=', sha256(token))
    .where('session.until', '>', now.toISOString())
    .where('account.ended', '=', '')
    .execute()
  return row && { ...row, role: row.role as Role }
}

/** Ends a session. */
export async function endSession(database: StoreDatabase, token: string, act: Act): Promise<void> {
  await database.tables.deleteFrom('session').where('token', '=', sha256(token)).execute()
  await keepAudit(database, { ...act, what: 'signed out', about: '' })
}
