import type { SignedKind } from '@shieldwright/engine'

/** A column of a table: where in the entity it stands, and what it is called. How it is typed comes from the schema. */
export interface Column {
  heading: string
  /** Below the entity, such as "/mass/value"; empty for the entity itself. */
  below: string
  /** Width in characters where the kind of field asks for too much or too little. */
  width?: number
  /** The other system's value is not shown beside it. */
  plain?: boolean
}

/** What of a project file is one table. */
export interface Collection {
  /** Address in the file. */
  at: string
  title: string
  /** One of them, in a sentence. */
  one: string
  /** Field that says what an entity is called; absent, its id. */
  name?: string
  columns: readonly Column[]
  /** Each is signed by itself: as what kind of thing, and by whom where the signer names nothing else. */
  signed?: { kind: SignedKind; as: string }
}

/** What of a project file is one thing with fields of its own. */
export interface Single {
  at: string
  title: string
  /** Fields below that are tables of their own, and not shown again. */
  without?: readonly string[]
}

export interface Group {
  title: string
  of: readonly (Collection | Single)[]
}

export const isCollection = (of: Collection | Single): of is Collection => 'columns' in of

/** A column by its heading and where it stands. */
export const column = (heading: string, below: string, more: Partial<Column> = {}): Column => ({
  heading,
  below,
  ...more,
})
/** A column of remarks. */
export const note = column('Note', '/note', { width: 30 })
export const plain = { plain: true }
