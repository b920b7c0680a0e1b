import { randomUUID } from 'node:crypto'
import type { StoreDatabase } from './database.ts'

/** What was done by whom, beyond changes and signatures, which are their own record. */
export interface Audited {
  at: string
  by: string
  what: string
  about: string
}

/** Keeps what was done for good. */
export async function keepAudit({ tables }: StoreDatabase, audited: Audited): Promise<void> {
  await tables
    .insertInto('audit')
    .values({ id: randomUUID(), ...audited })
    .execute()
}

/** What was done, the latest first. */
export async function audited({ tables }: StoreDatabase, most = 1000): Promise<Audited[]> {
  return tables
    .selectFrom('audit')
    .select(['at', 'by', 'what', 'about'])
    .orderBy('at', 'desc')
    .orderBy('id')
    .limit(most)
    .execute()
}
