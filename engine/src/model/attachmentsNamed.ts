import type { ReadProject } from './schema/project.ts'

type Holders = Pick<ReadProject, 'inspections' | 'welds' | 'boltRecords' | 'punchList' | 'services' | 'weighings'>

interface Holder {
  attachments?: readonly { hash: string }[] | undefined
}

/** Hashes of the files that the records of a project name, each once. */
export function attachmentsNamed({
  inspections,
  welds,
  boltRecords,
  punchList,
  services,
  weighings,
}: Holders): string[] {
  const holders: readonly Holder[] = [inspections, welds, boltRecords, punchList, services, weighings].flatMap(
    (all): Holder[] => Object.values(all),
  )
  return [...new Set(holders.flatMap(({ attachments = [] }) => attachments.map(({ hash }) => hash)))]
}
