import { useEffect, useState } from 'react'
import { Scroll } from '../parts/scroll.tsx'
import { useShown } from '../state.ts'
import { dayAndTime } from './signatures.tsx'
import type { SignatureView } from './useSignatures.ts'

/** What was done by whom, beyond changes and signatures. */
interface AuditedView {
  at: string
  by: string
  what: string
  about: string
}

/** Every signature of the project and whether it still stands, and what else is on record of who did what. */
export function OnRecord() {
  const { revision } = useShown()
  const [signatures, setSignatures] = useState<readonly SignatureView[]>()
  const [audit, setAudit] = useState<readonly AuditedView[]>()
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again for each revision
  useEffect(() => {
    const ended = new AbortController()
    const read = <T,>(path: string, take: (told: T) => void): void => {
      fetch(path, { signal: ended.signal })
        .then(async (answer) => answer.ok && take(await answer.json()))
        .catch(() => undefined)
    }
    read('/api/signatures', (told: { signatures: readonly SignatureView[] }) => setSignatures(told.signatures))
    read('/api/audit', (told: { audit: readonly AuditedView[] }) => setAudit(told.audit))
    return () => ended.abort()
  }, [revision])
  return (
    <section className="along" aria-labelledby="on-record">
      <div className="titled">
        <h2 id="on-record">Signed, and done</h2>
        <span className="small quiet">a signature that is overtaken is none</span>
      </div>
      {signatures?.length === 0 && <p className="small">Nothing is signed.</p>}
      {signatures !== undefined && signatures.length > 0 && <Signed all={signatures} />}
      {audit !== undefined && audit.length > 0 && <Done all={audit} />}
    </section>
  )
}

function Signed({ all }: { all: readonly SignatureView[] }) {
  return (
    <Scroll name="Signatures of the project">
      <table>
        <caption className="unseen">Signatures of the project, the latest first</caption>
        <thead>
          <tr>
            {['What', 'By', 'As', 'At', 'On revision', 'State', 'Since'].map((heading) => (
              <th key={heading} scope="col" className={heading === 'On revision' ? 'num' : undefined}>
                {heading}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {all.map((signature) => (
            <SignedRow key={signature.id} signature={signature} />
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}

function SignedRow({ signature }: { signature: SignatureView }) {
  const { kind, subject, by, role, at, revision, state, overtakenBy, withdrawn } = signature
  const place = kind === 'lift-sheet' ? `#lift/${subject}` : `#model${subject}`
  const since =
    withdrawn !== undefined
      ? `${dayAndTime(withdrawn.at)}, ${withdrawn.by}: ${withdrawn.why}`
      : overtakenBy !== undefined
        ? `revision ${overtakenBy.revision}, ${overtakenBy.by}: ${overtakenBy.why}`
        : ''
  return (
    <tr>
      <th scope="row">
        {kind.replace('-', ' ')} <a href={place}>{subject}</a>
      </th>
      <td>{by}</td>
      <td>{role}</td>
      <td>{dayAndTime(at)}</td>
      <td className="num">{revision}</td>
      <td className={state === 'stands' ? undefined : 'strong fail'}>{state}</td>
      <td>{since}</td>
    </tr>
  )
}

function Done({ all }: { all: readonly AuditedView[] }) {
  return (
    <details>
      <summary>
        Who did what beside it: {all.length} {all.length === 1 ? 'entry' : 'entries'}
      </summary>
      <Scroll name="What was done">
        <table>
          <caption className="unseen">What was done beside changes and signatures, the latest first</caption>
          <thead>
            <tr>
              {['At', 'By', 'What', 'About'].map((heading) => (
                <th key={heading} scope="col">
                  {heading}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {all.map(({ at, by, what, about }) => (
              <tr key={`${at} ${by} ${what} ${about}`}>
                <th scope="row">{dayAndTime(at)}</th>
                <td>{by}</td>
                <td>{what}</td>
                <td>{about}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
    </details>
  )
}
