import {
  type BasisChange,
  basisChanges,
  basisOf,
  type CheckState,
  figuresOf,
  type Signed,
  type SignedFigure,
  type Stages,
} from '@shieldwright/engine'
import { signatureCheck } from '@shieldwright/engine/report/index.ts'
import type { Check } from '@shieldwright/engine/working/check.ts'
import { sameContent } from '@shieldwright/engine/working/memory.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import type { Live } from '../server/live.ts'
import { sha256 } from '../sha256.ts'
import { keepAttachment } from '../store/attachments.ts'
import type { LogEntry } from '../store/store.ts'
import { keepSignature, keepWithdrawal, keptSignatures, type Signature, type Withdrawal } from './signature.ts'
import { signedDocument } from './signedDocument.ts'

/** A signature that is asked for. */
export interface AskedSignature extends Signed {
  role: string
  statement: string
  /** The revision that the signer has before them. */
  revision: number
  by: string
  at: string
}

/** A figure that is no longer what was signed; one side is absent where the check came or went. */
export interface MovedFigure {
  check: string
  title: string
  unit: string
  before?: CheckState
  after?: CheckState
}

/** A signature and whether it still stands. */
export interface SignatureStanding extends Omit<Signature, 'basis' | 'figures'> {
  state: 'stands' | 'overtaken' | 'withdrawn'
  /** What of its content is no longer what was signed. */
  changes: readonly BasisChange[]
  /** The change in the log since which it no longer stands; undefined where a new engine and no change overtook it. */
  overtakenBy?: Omit<LogEntry, 'patch'>
  moved: readonly MovedFigure[]
  withdrawn?: Withdrawal
}

/** A signature as it stood on some revision. */
export type SignatureThen = Omit<SignatureStanding, 'changes' | 'overtakenBy' | 'moved' | 'withdrawn'>

/** What is signed on a project. */
export interface Signing {
  sign(asked: AskedSignature): Promise<{ signature: SignatureStanding } | { problems: readonly Problem[] }>
  /** Takes a signature back; false when there is none that could be. */
  withdraw(id: string, withdrawal: Omit<Withdrawal, 'signature'>): Promise<boolean>
  /** Every signature, the latest first. */
  all(): Promise<SignatureStanding[]>
  /** Signatures as they stood on a revision until the next one was kept, the latest first: what was signed or taken back after that is not known there. */
  at(revision: number): Promise<SignatureThen[]>
}

/** Signatures on a live project. They bind to content: an edit elsewhere leaves them standing. */
export function signing(live: Live): Signing {
  // Which change overtook a signature is looked for once: the log before it does not change.
  const overtaken = new Map<string, { at: number; by: Omit<LogEntry, 'patch'> | undefined }>()
  const standing = async (signature: Signature, withdrawn: Withdrawal | undefined): Promise<SignatureStanding> => {
    const { revision, derivation } = await live.now()
    const { basis, figures, ...plain } = signature
    const changes = changesIn(signature, derivation.derived.stages)
    if (withdrawn !== undefined) return { ...plain, state: 'withdrawn', changes, moved: [], withdrawn }
    if (changes.length === 0) return { ...plain, state: 'stands', changes, moved: [] }
    const known = overtaken.get(signature.id)
    const by = known?.at === revision ? known.by : await overtakingChange(live, signature, revision)
    overtaken.set(signature.id, { at: revision, by })
    const moved = derivation.derived.stages ? movedFigures(signature, derivation.derived.stages) : []
    return { ...plain, state: 'overtaken', changes, moved, ...(by && { overtakenBy: by }) }
  }
  return {
    sign: async (asked) => {
      const signed = await signedContent(live, asked)
      if ('problems' in signed) return signed
      const signature = await keepSignature(live.store.database, signed.signature)
      return { signature: await standing(signature, undefined) }
    },
    withdraw: async (id, withdrawal) => {
      const { signatures, withdrawals } = await keptSignatures(live.store.database)
      const signature = signatures.find((s) => s.id === id)
      if (signature === undefined || withdrawals.has(id)) return false
      return keepWithdrawal(live.store.database, signature, withdrawal)
    },
    all: async () => {
      const { signatures, withdrawals } = await keptSignatures(live.store.database)
      const standings: SignatureStanding[] = []
      for (const signature of signatures.toReversed())
        standings.push(await standing(signature, withdrawals.get(signature.id)))
      return standings
    },
    at: (revision) => signaturesThen(live, revision),
  }
}

async function signaturesThen(live: Live, revision: number): Promise<SignatureThen[]> {
  const { signatures, withdrawals } = await keptSignatures(live.store.database)
  const [next] = await live.logAfter(revision, 1)
  const isKnown = ({ at }: { at: string }): boolean => next === undefined || at <= next.at
  const known = signatures.filter((signature) => signature.revision <= revision && isKnown(signature))
  if (known.length === 0) return []
  const stages = (await live.derivedAt(revision))?.derived.stages
  return known.toReversed().map((signature): SignatureThen => {
    const { basis: _basis, figures: _figures, ...plain } = signature
    const withdrawn = withdrawals.get(signature.id)
    if (withdrawn !== undefined && isKnown(withdrawn)) return { ...plain, state: 'withdrawn' }
    return { ...plain, state: changesIn(signature, stages).length === 0 ? 'stands' : 'overtaken' }
  })
}

/** Check 96 of each that is not withdrawn. */
export const signatureChecks = (all: readonly SignatureStanding[]): Check[] =>
  all.flatMap(({ id, kind, subject, by, state, changes, overtakenBy }) => {
    if (state === 'withdrawn') return []
    const since = overtakenBy && `revision ${overtakenBy.revision}, ${overtakenBy.by}, ${overtakenBy.at.slice(0, 10)}`
    const known = changes.includes(noProject) ? undefined : changes
    return [signatureCheck({ id, what: `${kind} ${subject}`, by, changes: known, overtakenBy: since })]
  })

const noProject: BasisChange = { what: 'subject', at: '', before: 'there', after: 'a project with faults' }

const changesIn = (signature: Signature, stages: Stages | undefined): BasisChange[] =>
  stages === undefined ? [noProject] : basisChanges(signature.basis, stages, signature, sha256)

type Content = { signature: Omit<Signature, 'id'> } | { problems: readonly Problem[] }

async function signedContent(
  live: Live,
  { kind, subject, role, statement, revision, by, at }: AskedSignature,
): Promise<Content> {
  const derivation = await live.derivedAt(revision)
  if (derivation === undefined) return refused('/revision', String(revision), 'a revision that is kept')
  const { stages, problems } = derivation.derived
  if (stages === undefined) return { problems }
  const signed = { kind, subject }
  const basis = basisOf(stages, signed, sha256)
  if (basis === undefined) return refused('/subject', `"${subject}"`, `what a ${kind} can be of`)
  const figures = figuresOf(stages, signed)
  const failing = Object.entries(figures).find(([, figure]) => figure.verdict === 'fail')
  if (failing !== undefined) return refused('/subject', `${failing[1].title} fails (${failing[0]})`, 'no failing check')
  const bytes = await signedDocument(stages, signed, { revision, document: derivation.document, date: at.slice(0, 10) })
  const file = { name: `${kind}-${subject}.pdf`, type: 'application/pdf', at, by }
  const kept = bytes && (await keepAttachment(live.store.database, file, bytes))
  return { signature: { kind, subject, role, statement, revision, by, at, basis, figures, document: kept?.hash } }
}

const refused = (pointer: string, found: string, expected: string): { problems: Problem[] } => ({
  problems: [{ pointer, found, expected }],
})

/**
 * The change since which a signature no longer stands: it stands on the revision before it, and not on it. Looked for back
 * from the present in growing steps, then by halving, so that of several such changes a late one is named.
 */
async function overtakingChange(
  live: Live,
  signature: Signature,
  now: number,
): Promise<Omit<LogEntry, 'patch'> | undefined> {
  let [stands, overtaken] = [now, now]
  for (let step = 1; stands > signature.revision; step *= 2) {
    stands = Math.max(signature.revision, now - step)
    if (await standsOn(live, signature, stands)) break
    overtaken = stands
  }
  if (overtaken === signature.revision || stands === now) return undefined
  while (overtaken - stands > 1) {
    const middle = Math.floor((stands + overtaken) / 2)
    if (await standsOn(live, signature, middle)) stands = middle
    else overtaken = middle
  }
  const [entry] = await live.logAfter(stands, 1)
  if (entry === undefined) return undefined
  const { patch: _patch, ...change } = entry
  return change
}

async function standsOn(live: Live, signature: Signature, revision: number): Promise<boolean> {
  const derivation = await live.derivedAt(revision)
  return derivation !== undefined && changesIn(signature, derivation.derived.stages).length === 0
}

function movedFigures(signature: Signature, stages: Stages): MovedFigure[] {
  // As they come back from the store: what is unknown has no entry there.
  const now = JSON.parse(JSON.stringify(figuresOf(stages, signature))) as Record<string, SignedFigure>
  const ids = [...new Set([...Object.keys(signature.figures), ...Object.keys(now)])]
  return ids.flatMap((check) => {
    const [before, after] = [signature.figures[check], now[check]]
    if (sameContent(before, after)) return []
    const { title, unit } = (after ?? before) as SignedFigure
    return [{ check, title, unit, ...(before && { before }), ...(after && { after }) }]
  })
}
