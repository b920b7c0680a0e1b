import './signing.css'
import type { SignedKind } from '@shieldwright/engine'
import { type Problem, problemText } from '@shieldwright/engine/working/problem.ts'
import type { SiUnit } from '@shieldwright/engine/working/unit.ts'
import { type FormEvent, useState } from 'react'
import { figureOf } from '../parts/figures.ts'
import { useShown } from '../state.ts'
import { type MovedView, type SignatureView, useSignatures } from './useSignatures.ts'

interface SignaturesProps {
  kind: SignedKind
  /** The lift's id for its sheet, else the address in the project file. */
  subject: string
  title: string
  /** As what it is signed, where the signer names nothing else. */
  signsAs: string
}

/** Who signed something, whether it still stands, and a place to sign it. */
export function Signatures({ kind, subject, title, signsAs }: SignaturesProps) {
  const { all, sign, withdraw } = useSignatures(kind, subject)
  return (
    <section className="signatures" aria-label={title}>
      <div className="titled">
        <h2>{title}</h2>
        <span className="small quiet">{all === undefined ? 'reading' : standingText(all)}</span>
      </div>
      {all?.map((signature) => (
        <OneSignature key={signature.id} signature={signature} withdraw={withdraw} />
      ))}
      <SignForm key={subject} usual={signsAs} sign={sign} />
    </section>
  )
}

function standingText(all: readonly SignatureView[]): string {
  const [stands, overtaken] = (['stands', 'overtaken'] as const).map(
    (s) => all.filter(({ state }) => state === s).length,
  )
  if (all.length === 0) return 'not signed'
  return [stands ? `${stands} stand` : '', overtaken ? `${overtaken} overtaken` : ''].filter(Boolean).join(', ')
}

interface OneProps {
  signature: SignatureView
  withdraw: Withdraw
}

type Withdraw = (id: string, why: string) => Promise<readonly Problem[]>

function OneSignature({ signature, withdraw }: OneProps) {
  const { by, role, at, revision, statement, state, document } = signature
  return (
    <div className={`signature ${state}`}>
      <p>
        <span className={`strong ${state === 'overtaken' ? 'fail' : ''}`}>
          {state === 'stands' ? 'Stands' : state === 'overtaken' ? 'Overtaken' : 'Withdrawn'}
        </span>
        : {by}, {role}, {dayAndTime(at)}, on revision {revision}
        {document !== undefined && (
          <>
            {' · '}
            <a href={`/api/attachments/${document}`}>signed document</a>
          </>
        )}
      </p>
      {statement !== '' && <p className="small">“{statement}”</p>}
      {state === 'overtaken' && <Overtaken signature={signature} />}
      {signature.withdrawn !== undefined && (
        <p className="small">
          withdrawn by {signature.withdrawn.by}, {dayAndTime(signature.withdrawn.at)}: {signature.withdrawn.why}
        </p>
      )}
      {signature.withdrawn === undefined && <WithdrawForm signature={signature} withdraw={withdraw} />}
    </div>
  )
}

/** Taking a signature back, folded until it is wanted: it stays in the record with the reason. */
function WithdrawForm({ signature: { id, by }, withdraw }: OneProps) {
  const [why, setWhy] = useState('')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault()
    setProblems(await withdraw(id, why))
  }
  return (
    <details className="small">
      <summary>Withdraw it</summary>
      <form onSubmit={submit}>
        <label>
          Why <input value={why} onChange={(e) => setWhy(e.target.value)} required maxLength={500} />
        </label>
        <button type="submit">Withdraw the signature of {by}</button>
        <Problems problems={problems} />
      </form>
    </details>
  )
}

const Problems = ({ problems }: { problems: readonly Problem[] }) =>
  problems.map((problem) => (
    <p key={problem.pointer + problem.found} role="alert" className="small">
      {problemText(problem)}
    </p>
  ))

/** Addresses and figures that are shown; the rest is counted. */
const SHOWN = 4

function Overtaken({ signature: { overtakenBy, changes, moved } }: { signature: SignatureView }) {
  const addresses = changes.filter(({ what }) => what === 'input').map(({ at }) => at)
  const others = changes
    .filter(({ what }) => what !== 'input')
    .map(({ at, what }) => (what === 'engine' ? 'the engine' : at))
  const named = addresses.length > 0 ? addresses : others
  return (
    <>
      <p className="small">
        by{' '}
        {overtakenBy === undefined
          ? 'another engine'
          : `revision ${overtakenBy.revision}, ${overtakenBy.by}, ${dayAndTime(overtakenBy.at)}`}
        {overtakenBy?.why ? ` (${overtakenBy.why})` : ''}: {named.slice(0, SHOWN).join(', ')}
        {named.length > SHOWN ? ` and ${named.length - SHOWN} more` : ''}
      </p>
      {moved.length > 0 && (
        <table>
          <caption className="unseen">Figures that moved since it was signed</caption>
          <thead>
            <tr>
              <th scope="col">Moved</th>
              <th scope="col" className="num">
                Signed
              </th>
              <th scope="col" className="num">
                Now
              </th>
            </tr>
          </thead>
          <tbody>
            {moved.slice(0, SHOWN).map((figure) => (
              <MovedRow key={figure.check} figure={figure} />
            ))}
          </tbody>
        </table>
      )}
      {moved.length > SHOWN && <p className="small quiet">and {moved.length - SHOWN} figures more</p>}
    </>
  )
}

function MovedRow({ figure: { title, unit, before, after } }: { figure: MovedView }) {
  const { system } = useShown()
  const told = (side: MovedView['before']): string => {
    if (side === undefined) return '–'
    const [demand, capacity] = [side.demand, side.capacity].map((value) => figureOf(value, unit as SiUnit, system))
    return `${wordsOf(demand)} of ${wordsOf(capacity)}, ${side.verdict}`
  }
  return (
    <tr>
      <th scope="row">{title}</th>
      <td className="num">{told(before)}</td>
      <td className="num">{told(after)}</td>
    </tr>
  )
}

const wordsOf = (figure: ReturnType<typeof figureOf> | undefined): string =>
  [figure?.number, figure?.unit].filter(Boolean).join(' ')

/** Day and minute of a moment, in universal time as it is kept. */
export const dayAndTime = (at: string): string => `${at.slice(0, 10)} ${at.slice(11, 16)} UTC`

interface SignFormProps {
  usual: string
  sign: (role: string, statement: string) => Promise<readonly Problem[]>
}

function SignForm({ usual, sign }: SignFormProps) {
  const { revision } = useShown()
  const [role, setRole] = useState(usual)
  const [statement, setStatement] = useState('')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const [sending, setSending] = useState(false)
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault()
    setSending(true)
    const found = await sign(role, statement)
    setProblems(found)
    if (found.length === 0) setStatement('')
    setSending(false)
  }
  return (
    <form onSubmit={submit}>
      <label>
        As <input value={role} onChange={(e) => setRole(e.target.value)} required maxLength={80} />
      </label>
      <label>
        Adding <input value={statement} onChange={(e) => setStatement(e.target.value)} maxLength={500} />
      </label>
      <button type="submit" disabled={sending}>
        Sign as it stands on revision {revision}
      </button>
      <Problems problems={problems} />
      <p className="small quiet">
        Informs competent people and replaces none of them: local codes, the manufacturer’s instructions and licensed
        engineers govern.
      </p>
    </form>
  )
}
