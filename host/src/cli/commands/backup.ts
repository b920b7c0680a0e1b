import { existsSync, readdirSync, rmdirSync, rmSync, statSync } from 'node:fs'
import { join } from 'node:path'
import type { Command } from 'commander'
import { writeWhole } from '../../project/writeWhole.ts'
import { ArchiveTooLarge, archiveOf } from '../../store/archive.ts'
import { placeIn } from '../../store/place.ts'
import { archived, restored } from '../../store/restore.ts'
import { openStore, type Store } from '../../store/store.ts'
import { type Answer, printAnswer, type Refusal, usageProblem } from '../answer.ts'
import { onStore, type StoreOptions, storeCommand } from '../onStore.ts'
import { bytesOf } from './import.ts'

interface Options extends StoreOptions {
  replace?: boolean
}

/** `backup FILE`: the whole store as one archive, while others work on it. */
export const backupCommand = (): Command =>
  storeCommand('backup', 'the whole store as one archive, also while the workbench runs')
    .argument('<file>', 'archive to write, such as recovery.zip')
    .option('--replace', 'over an archive of that name, once the new one is whole')
    .action((file: string, options: Options) =>
      onStore(options, async ({ store }) => {
        const taken = takenBy(file, options)
        if (taken !== undefined) return taken
        const archive = await packed(store, join(options.data, 'meshes'))
        if ('problems' in archive) return archive
        writeWhole(file, archive)
        const { revision } = await store.current()
        const json = { files: [file], revision, bytes: archive.length }
        return { json, text: () => `${file}: revision ${revision}, ${archive.length} bytes\n` }
      }),
    )

/** The archive; of a store too large for one, how to keep it otherwise. */
async function packed(store: Store, meshFolder: string): Promise<Uint8Array | Refusal> {
  try {
    return await archiveOf(store, meshFolder)
  } catch (error) {
    if (!(error instanceof ArchiveTooLarge)) throw error
    const example = 'the folder of the store copied while no workbench runs, or the backup of the database server'
    return usageProblem('backup', error.message, 'a store that one archive can bring back', example)
  }
}

/** What stands already where an archive is to be written: an earlier backup is not lost to a slip of the pen. */
function takenBy(file: string, { replace = false }: Options): Refusal | undefined {
  const found = existsSync(file) ? statSync(file) : undefined
  if (found === undefined || (replace && found.isFile())) return undefined
  return found.isFile()
    ? usageProblem(file, 'a file that is there already', 'a name of its own, or --replace', 'backup-2032-03-05.zip')
    : usageProblem(file, 'something that is no file', 'a file to write', 'recovery.zip')
}

const ARCHIVE = { largest: 1024 * 1024 * 1024, expected: 'an archive that "backup" wrote', example: 'recovery.zip' }

/** `restore FILE`: an archive into an empty store. */
export const restoreCommand = (): Command =>
  storeCommand('restore', 'bring an archive that "backup" wrote into an empty store')
    .argument('<file>', 'archive to read')
    .action(async (file: string, options: StoreOptions) => printAnswer(await restoreAnswer(file, options), options))

/** The archive is looked through before anything is made: of one that is refused no folder is left. */
async function restoreAnswer(file: string, { data }: StoreOptions): Promise<Answer> {
  const read = bytesOf(file, ARCHIVE)
  if ('problems' in read) return read
  const from = archived(read.bytes)
  if ('problems' in from) return { problems: from.problems.map((p) => ({ ...p, pointer: `${file}: ${p.pointer}` })) }
  const place = placeIn(data)
  const isNew = 'file' in place && !existsSync(place.file)
  const store = await openStore(place)
  try {
    const problems = await restored(store, join(data, 'meshes'), from)
    if (problems.length > 0) return { problems }
    const { revision } = await store.current()
    return { json: { revision }, text: () => `revision ${revision}\n` }
  } catch (error) {
    const isEmpty = (await store.current()).revision === 0
    await store.close()
    if (isNew && isEmpty) removeMade(data, place.file)
    throw error
  } finally {
    await store.close()
  }
}

/** Takes out a store that did not come about, and its folders unless something else lies in them. */
function removeMade(data: string, file: string): void {
  for (const made of [file, `${file}-wal`, `${file}-shm`]) rmSync(made, { force: true })
  for (const folder of [join(data, 'meshes'), data])
    if (existsSync(folder) && readdirSync(folder).length === 0) rmdirSync(folder)
}
