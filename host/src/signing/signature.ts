import { randomUUID } from 'node:crypto'
import type { Basis, Signed, SignedFigure, SignedKind } from '@shieldwright/engine'
import { isTaken, type StoreDatabase } from '../store/database.ts'

/** Someone's name under a content. */
export interface Signature extends Signed {
  id: string
  /** As what it was signed, such as "lift engineer". */
  role: string
  /** The revision that the signer had before them. */
  revision: number
  at: string
  by: string
  /** What the signer adds. */
  statement: string
  basis: Basis
  figures: Readonly<Record<string, SignedFigure>>
  /** Hash of the signed document among the attachments; undefined where there was none. */
  document: string | undefined
}

/** Taking a signature back, which leaves it in the record. */
export interface Withdrawal {
  signature: string
  at: string
  by: string
  why: string
}

/** Signatures of a store in the order of signing, and what was withdrawn of them. */
export async function keptSignatures({
  tables,
}: StoreDatabase): Promise<{ signatures: Signature[]; withdrawals: ReadonlyMap<string, Withdrawal> }> {
  const rows = await tables.selectFrom('signature').selectAll().orderBy('at').orderBy('id').execute()
  const signatures = rows.filter((row) => row.withdraws === '')
  const withdrawals = rows
    .filter((row) => row.withdraws !== '')
    .map(({ withdraws, at, by, statement }) => ({ signature: withdraws, at, by, why: statement }))
  return {
    signatures: signatures.map(({ withdraws: _none, kind, basis, figures, document, ...row }) => ({
      ...row,
      kind: kind as SignedKind,
      basis: JSON.parse(basis),
      figures: JSON.parse(figures),
      document: document === '' ? undefined : document,
    })),
    withdrawals: new Map(withdrawals.map((withdrawal) => [withdrawal.signature, withdrawal])),
  }
}

/** Keeps a signature for good. */
export async function keepSignature({ tables }: StoreDatabase, signature: Omit<Signature, 'id'>): Promise<Signature> {
  const kept = { id: randomUUID(), ...signature }
  const { basis, figures, document = '', ...row } = kept
  const texts = { basis: JSON.stringify(basis), figures: JSON.stringify(figures), document, withdraws: '' }
  await tables
    .insertInto('signature')
    .values({ ...row, ...texts })
    .execute()
  return kept
}

/** Keeps that a signature was withdrawn; the signature stays in the record. False where another withdrew it first. */
export async function keepWithdrawal(
  { tables }: StoreDatabase,
  { id, kind, subject, role, revision }: Signature,
  { at, by, why }: Omit<Withdrawal, 'signature'>,
): Promise<boolean> {
  const nothing = { basis: '{}', figures: '{}', document: '' }
  // Its id is made of the signature's, so that of two who withdraw it at once the table's key refuses one.
  const row = {
    id: `${id}-withdrawn`,
    kind,
    subject,
    role,
    revision,
    at,
    by,
    statement: why,
    ...nothing,
    withdraws: id,
  }
  try {
    await tables.insertInto('signature').values(row).execute()
    return true
  } catch (error) {
    if (!isTaken(error)) throw error
    return false
  }
}
