import type { Command } from 'commander'
import { comparedRevisions } from '../../server/compared.ts'
import type { Live } from '../../server/live.ts'
import { takenBack } from '../../server/takenBack.ts'
import { logView } from '../../server/view.ts'
import { namedRevisions, nameRevision, revisionMeant } from '../../store/baselines.ts'
import type { Answer, Common } from '../answer.ts'
import { usageProblem } from '../answer.ts'
import { wholeNumber } from '../command.ts'
import { type Act, onStore, type StoreOptions, storeCommand } from '../onStore.ts'
import { table } from '../table.ts'
import { operationText } from './diff.ts'
import { whatIfText } from './whatif.ts'

const revisionNumber = wholeNumber(0, Number.MAX_SAFE_INTEGER, 12)

/** `log`: the changes of the stored project. */
export const logCommand = (): Command =>
  storeCommand('log', 'the changes of the stored project: who, when, why, what')
    .option('--after <revision>', 'only changes after this revision', revisionNumber, 0)
    .option('--most <n>', 'at most so many', wholeNumber(1, 100_000, 1000), 1000)
    .action((options: StoreOptions & { after: number; most: number }) =>
      onStore(options, async (live) => logAnswer(await live.logAfter(options.after, options.most))),
    )

function logAnswer(entries: Awaited<ReturnType<Live['logAfter']>>): Answer {
  const changes = entries.map(logView)
  const columns = ['revision', 'at', 'by', 'why', 'touches'].map((title) => ({ title }))
  const touches = (operations: readonly { path: string }[]): string =>
    operations.length === 1 ? operations[0]?.path || 'the whole project' : `${operations.length} places`
  return {
    json: { changes },
    text: () =>
      table(
        columns,
        changes.map((c) => [String(c.revision), c.at.slice(0, 19), c.by, c.why, touches(c.operations)]),
      ),
  }
}

/** `undo [REVISION]`: takes a change back by a change of its own. */
export const undoCommand = (): Command =>
  storeCommand('undo', 'take a change back, by a change of its own; undoing that one brings it again')
    .argument('[revision]', 'the change; the latest where none is named', revisionNumber)
    .action((revision: number | undefined, options: StoreOptions) =>
      onStore(options, async (live, { by, at }) => {
        const changed = await takenBack(live, by, at, revision)
        if (changed.behind !== undefined)
          return usageProblem(
            'revision',
            `what revision ${changed.behind[0]?.revision} has changed since`,
            'a change that nothing after it met',
          )
        if (changed.problems !== undefined) return { problems: changed.problems }
        const { revision: now, same } = changed
        const words = same ? `nothing to take back: it is so already, revision ${now}\n` : `revision ${now}\n`
        return { json: { revision: now, ...(same && { same }) }, text: () => words }
      }),
    )

/** `baseline [NAME]`: names of revisions, or one more. */
export const baselineCommand = (): Command =>
  storeCommand('baseline', 'names of revisions; with a name, this one gets it for good')
    .argument('[name]', 'a name, such as tender')
    .option('--revision <revision>', 'the revision; the latest where none is named', 'now')
    .option('--why <words>', 'what it is for', '')
    .action((name: string | undefined, options: StoreOptions & { revision: string; why: string }) =>
      onStore(options, (live, act) => baselineAnswer(live, act, name, options)),
    )

async function baselineAnswer(
  { store }: Live,
  { by, at }: Act,
  name: string | undefined,
  { revision: words, why }: { revision: string; why: string },
): Promise<Answer> {
  if (name !== undefined) {
    const revision = await revisionMeant(store, words)
    if (revision === undefined) return usageProblem('--revision', `"${words}"`, 'a revision that is kept, or "now"')
    const problems = await nameRevision(store, { name, revision, at, by, why })
    if (problems.length > 0) return { problems }
  }
  const baselines = await namedRevisions(store.database)
  const columns = ['name', 'revision', 'on', 'by', 'why'].map((title) => ({ title }))
  const rows = baselines.map((b) => [b.name, String(b.revision), b.at.slice(0, 10), b.by, b.why])
  return { json: { baselines }, text: () => table(columns, rows) }
}

/** `compare FROM TO`: two revisions and what follows from their difference. */
export const compareCommand = (): Command =>
  storeCommand('compare', 'two revisions of the stored project, and the checks that differ')
    .argument('<from>', 'a revision, its name, or "now"')
    .argument('[to]', 'the other one', 'now')
    .action((from: string, to: string, options: StoreOptions) =>
      onStore(options, (live) => compareAnswer(live, from, to, options)),
    )

async function compareAnswer(live: Live, from: string, to: string, { units = 'SI' }: Common): Promise<Answer> {
  const answer = await comparedRevisions(live, from, to)
  if ('problems' in answer) return answer
  const { compared } = answer
  return {
    json: compared,
    text: () => `${compared.patch.map(operationText).join('')}\n${whatIfText(compared, units)}`,
    counts: compared.after.counts,
  }
}
