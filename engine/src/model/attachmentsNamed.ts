import type { ReadProject } from './schema/project.ts'

/** Collections of a project whose records name files. */
export const WITH_ATTACHMENTS = ['inspections', 'welds', 'boltRecords', 'punchList', 'services', 'weighings'] as const

type Holders = Pick<ReadProject, (typeof WITH_ATTACHMENTS)[number]>

interface Holder {
  attachments?: readonly { hash: string }[] | undefined
}

/** Hashes of the files that the records of a project name, each once. */
export function attachmentsNamed(project: Holders): string[] {
  const holders = WITH_ATTACHMENTS.flatMap((name): Holder[] => Object.values(project[name]))
  return [...new Set(holders.flatMap(({ attachments = [] }) => attachments.map(({ hash }) => hash)))]
}
