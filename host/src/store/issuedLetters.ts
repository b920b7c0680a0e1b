import type { Operation } from '@shieldwright/engine/working/patch.ts'
import type { StoreDatabase } from './database.ts'

/**
 * Letters under which campaign books were ever put on record, in no order: one that was taken off the record again, by undo or by
 * hand, is in the hands of others all the same and is never given a second time.
 */
export async function lettersEver({ tables }: Pick<StoreDatabase, 'tables'>): Promise<string[]> {
  const rows = await tables.selectFrom('change').select('patch').where('patch', 'like', '%issuedBooks%').execute()
  return rows.flatMap(({ patch }) => (JSON.parse(patch) as Operation[]).flatMap(lettersIn))
}

function lettersIn(op: Operation): string[] {
  const [, first, letter, ...below] = op.path.split('/')
  if (first === 'issuedBooks' && letter !== undefined) return below.length === 0 ? [letter] : []
  const value = 'value' in op ? op.value : undefined
  const issued =
    first === 'issuedBooks' ? value : op.path === '' ? (value as { issuedBooks?: unknown })?.issuedBooks : {}
  return Object.keys(issued ?? {})
}
