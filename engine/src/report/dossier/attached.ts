/** What a dossier knows of the files beside the project, by their hash: that one can be printed, or why not. None where it is made without them. */
export type AttachedFiles = ReadonlyMap<string, 'printed' | 'not a JPEG or PNG that can be read'>

/** A file that a record names. */
export interface DossierAttachment {
  hash: string
  caption: string | undefined
  /** `not asked for` where the dossier was made without a store. */
  state: 'printed' | 'not a JPEG or PNG that can be read' | 'not in the store' | 'not asked for'
}

/** Files of a record, every one of them, whether it is there or not. */
export const attachmentsOf = (
  { attachments = [] }: { attachments?: readonly { hash: string; caption?: string | undefined }[] | undefined },
  files: AttachedFiles | undefined,
): DossierAttachment[] =>
  attachments.map(({ hash, caption }) => ({
    hash,
    caption,
    state: files === undefined ? 'not asked for' : (files.get(hash) ?? 'not in the store'),
  }))
