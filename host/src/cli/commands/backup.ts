import { readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import type { Command } from 'commander'
import { writeWhole } from '../../project/demo.ts'
import { archiveOf, restored } from '../../store/archive.ts'
import { placeIn } from '../../store/place.ts'
import { openStore } from '../../store/store.ts'
import { type Answer, printAnswer, usageProblem } from '../answer.ts'
import { onStore, type StoreOptions, storeCommand } from '../onStore.ts'

/** `backup FILE`: the whole store as one archive, while others work on it. */
export const backupCommand = (): Command =>
  storeCommand('backup', 'the whole store as one archive, also while the workbench runs')
    .argument('<file>', 'archive to write, such as recovery.zip')
    .action((file: string, options: StoreOptions) =>
      onStore(options, async ({ store }) => {
        const archive = await archiveOf(store, join(options.data, 'meshes'))
        writeWhole(file, archive)
        const { revision } = await store.current()
        const json = { files: [file], revision, bytes: archive.length }
        return { json, text: () => `${file}: revision ${revision}, ${archive.length} bytes\n` }
      }),
    )

const LARGEST_ARCHIVE = 1024 * 1024 * 1024

/** `restore FILE`: an archive into an empty store. */
export const restoreCommand = (): Command =>
  storeCommand('restore', 'bring an archive that "backup" wrote into an empty store')
    .argument('<file>', 'archive to read')
    .action(async (file: string, options: StoreOptions) => printAnswer(await restoreAnswer(file, options), options))

async function restoreAnswer(file: string, { data }: StoreOptions): Promise<Answer> {
  const found = statSync(file, { throwIfNoEntry: false })
  const size = found?.isFile() ? found.size : undefined
  if (size === undefined || size > LARGEST_ARCHIVE)
    return usageProblem(
      'file',
      size === undefined ? `no file "${file}"` : `${size} bytes`,
      'an archive of at most 1 GiB',
    )
  const store = await openStore(placeIn(data))
  try {
    const problems = await restored(store, join(data, 'meshes'), readFileSync(file))
    if (problems.length > 0) return { problems }
    const { revision } = await store.current()
    return { json: { revision }, text: () => `revision ${revision}\n` }
  } finally {
    await store.close()
  }
}
