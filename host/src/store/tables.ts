/** One kept change: a JSON Patch on the revision before it. */
interface ChangeTable {
  revision: number
  /** ISO 8601, UTC. */
  at: string
  by: string
  why: string
  patch: string
}

/** The whole document at a revision, so that reading the present does not replay the whole past. */
interface SnapshotTable {
  revision: number
  document: string
}

/** A revision with a name: what others refer to. */
interface BaselineTable {
  name: string
  revision: number
  at: string
  by: string
  why: string
}

/** A file beside the project: photograph, certificate, signed document, by the SHA-256 of its bytes in hexadecimal. */
interface AttachmentTable {
  hash: string
  name: string
  /** Media type. */
  type: string
  size: number
  at: string
  by: string
  bytes: Uint8Array
}

/** What was signed, by whom, on which content. Never changed; a later row may withdraw it. */
interface SignatureTable {
  id: string
  kind: string
  subject: string
  /** Role in which it was signed. */
  role: string
  revision: number
  at: string
  by: string
  statement: string
  /** What it binds to, as JSON: `Basis` of `signed/basis.ts`. */
  basis: string
  /** Figures as they stood, as JSON. */
  figures: string
  /** Hash of the signed document in the attachments; empty where none was signed. */
  document: string
  /** Id of the signature that this row withdraws; empty for a signature. */
  withdraws: string
}

/** What was done by whom, beyond changes and signatures: accounts, sessions, exports, restores. */
interface AuditTable {
  id: string
  at: string
  by: string
  what: string
  about: string
}

/** Someone who may sign in. */
interface AccountTable {
  name: string
  role: string
  /** Hash with its work and salt. */
  password: string
  at: string
  by: string
  /** When it ended; empty while it may sign in. */
  ended: string
}

/** Someone who has signed in. */
interface SessionTable {
  /** SHA-256 of the token: who reads the table cannot take a session over. */
  token: string
  account: string
  until: string
}

/** What a long computation came to, by what it was made of. It can be made again, so old ones are let go. */
interface JobResultTable {
  /** Hash of engine version, request and document. */
  content: string
  at: string
  /** As the API tells it, JSON. */
  result: string
}

/** A long computation that a team's server has been asked for; whichever process has a hand free takes it. */
interface JobTable {
  id: string
  /** Key of its result. */
  content: string
  request: string
  revision: number
  state: 'waiting' | 'running' | 'done' | 'refused' | 'cancelled' | 'broken'
  /** JSON; empty where there is none. */
  progress: string
  problems: string
  /** Who works on it; empty for nobody. */
  worker: string
  /** How often it was taken up. */
  tries: number
  /** 1 when it is to stop. */
  cancelled: number
  /** When its worker was heard of last, ms, by the database's clock. */
  heard: number
  at: string
}

export interface Tables {
  account: AccountTable
  session: SessionTable
  change: ChangeTable
  job: JobTable
  job_result: JobResultTable
  snapshot: SnapshotTable
  baseline: BaselineTable
  attachment: AttachmentTable
  signature: SignatureTable
  audit: AuditTable
}
