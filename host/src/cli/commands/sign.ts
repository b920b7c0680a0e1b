import { SIGNED_KINDS, type SignedKind } from '@shieldwright/engine'
import { countVerdicts } from '@shieldwright/engine/working/check.ts'
import { Argument, type Command } from 'commander'
import type { Live } from '../../server/live.ts'
import { type SignatureStanding, signatureChecks, signing } from '../../signing/signing.ts'
import { type Answer, usageProblem } from '../answer.ts'
import { checkJson } from '../checkView.ts'
import { type Act, onStore, type StoreOptions, storeCommand } from '../onStore.ts'
import { table } from '../table.ts'

interface Options extends StoreOptions {
  as: string
  statement: string
  withdraw?: string
}

/** `sign [KIND SUBJECT]`: signs what stands in the store; without a subject, every signature and whether it still stands. */
export const signCommand = (): Command =>
  storeCommand('sign', 'sign a lift sheet or a record; without one, every signature and whether it still stands')
    .addArgument(new Argument('[kind]', 'what is signed').choices(SIGNED_KINDS))
    .argument('[subject]', 'id of a lift for its sheet; else the address in the project file, such as /tests/T-01')
    .option('--as <role>', 'as what it is signed', 'lift engineer')
    .option('--statement <words>', 'what the signer adds; why, where a signature is withdrawn', '')
    .option('--withdraw <id>', 'take a signature back; it stays in the record')
    .action((kind: SignedKind | undefined, subject: string | undefined, options: Options) =>
      onStore(options, (live, act) => signed(live, act, { ...options, kind, subject })),
    )

type Asked = Options & { kind: SignedKind | undefined; subject: string | undefined }

async function signed(live: Live, act: Act, asked: Asked): Promise<Answer> {
  const signatures = signing(live)
  const { kind, subject, as: role, statement, withdraw, units = 'SI' } = asked
  if (withdraw !== undefined && !(await signatures.withdraw(withdraw, { ...act, why: statement })))
    return usageProblem('--withdraw', `"${withdraw}"`, 'the id of a signature that is not withdrawn')
  if (kind !== undefined && subject === undefined) return usageProblem('subject', 'nothing', `what the ${kind} is of`)
  if (kind !== undefined && subject !== undefined) {
    const { revision } = await live.kept()
    const answer = await signatures.sign({ kind, subject, role, statement, revision, ...act })
    if ('problems' in answer) return answer
  }
  const all = await signatures.all()
  const checks = signatureChecks(all)
  return {
    json: { signatures: all, checks: checks.map((c) => checkJson(c, units)) },
    text: () => signaturesText(all),
    counts: countVerdicts(checks),
    failed: all.some((s) => s.state === 'overtaken'),
  }
}

const signaturesText = (all: readonly SignatureStanding[]): string =>
  all.length === 0
    ? 'nothing is signed\n'
    : table(
        ['state', 'what', 'by', 'as', 'on', 'revision', 'overtaken by'].map((title) => ({ title })),
        all.map((s) => [
          s.state,
          `${s.kind} ${s.subject}`,
          s.by,
          s.role,
          s.at.slice(0, 10),
          `${s.revision}`,
          whyText(s),
        ]),
      )

const whyText = ({ overtakenBy, changes }: SignatureStanding): string =>
  overtakenBy === undefined
    ? (changes[0]?.at ?? '')
    : `revision ${overtakenBy.revision}, ${overtakenBy.by}, ${overtakenBy.at.slice(0, 10)}: ${overtakenBy.why || changes[0]?.at}`
