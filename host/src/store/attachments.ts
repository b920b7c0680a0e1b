import { sha256 } from '../sha256.ts'
import { isTaken, type StoreDatabase } from './database.ts'

/** A file beside the project, without its bytes. */
export interface Attachment {
  /** SHA-256 of its bytes, hexadecimal: its name in the store. */
  hash: string
  /** What it was called where it came from. */
  name: string
  /** Media type. */
  type: string
  size: number
  at: string
  by: string
}

/** Keeps a file; the same bytes are kept once, under the name that they first had. */
export async function keepAttachment(
  { tables }: StoreDatabase,
  file: Pick<Attachment, 'name' | 'type' | 'at' | 'by'>,
  bytes: Uint8Array,
): Promise<Attachment> {
  const hash = sha256(bytes)
  const { name, type, at, by } = file
  const attachment = { hash, name, type, size: bytes.length, at, by }
  try {
    await tables
      .insertInto('attachment')
      .values({ ...attachment, bytes: Buffer.from(bytes) })
      .execute()
    return attachment
  } catch (error) {
    if (!isTaken(error)) throw error
    const [kept] = await told(tables).where('hash', '=', hash).execute()
    return kept ?? attachment
  }
}

const told = (tables: StoreDatabase['tables']) =>
  tables.selectFrom('attachment').select(['hash', 'name', 'type', 'size', 'at', 'by'])

/** Every file beside the project, in the order of their hashes. */
export async function attachments({ tables }: Pick<StoreDatabase, 'tables'>): Promise<Attachment[]> {
  return told(tables).orderBy('hash').execute()
}

/** A file with its bytes; undefined when there is none with this hash. */
export async function attachmentOf(
  { tables }: Pick<StoreDatabase, 'tables'>,
  hash: string,
): Promise<(Attachment & { bytes: Uint8Array }) | undefined> {
  const [row] = await tables.selectFrom('attachment').selectAll().where('hash', '=', hash).execute()
  return row && { ...row, bytes: new Uint8Array(row.bytes) }
}
