import { useState } from 'react'
import { Scroll } from './scroll.tsx'
import { askCases, askMethods, type Method, type VerifiedCase } from './verification.ts'

interface CasesProps {
  /** Id of the formula that gives the number. */
  formula: string | undefined
  /** The number is an algorithm's: the cases of its stage hold it. */
  isMethod: boolean
  stage: string
}

/** The verification cases of a formula, run by the host when they are asked for. */
export function Cases({ formula, isMethod, stage }: CasesProps) {
  const [cases, setCases] = useState<readonly VerifiedCase[]>()
  const [methods, setMethods] = useState<readonly Method[]>()
  const [fault, setFault] = useState<string>()
  const [chosen, setChosen] = useState<string>()
  if (formula === undefined && !isMethod) return null
  const show = (name: string): void => {
    setChosen(name)
    askCases(name).then(setCases, (error: Error) => setFault(error.message))
  }
  const open = (): void => {
    if (formula !== undefined) show(formula)
    else askMethods(stage).then(setMethods, (error: Error) => setFault(error.message))
  }
  const close = (): void => {
    setCases(undefined)
    setMethods(undefined)
  }
  const isOpen = cases !== undefined || methods !== undefined
  return (
    <div className="cases">
      <button type="button" className="link" aria-expanded={isOpen} onClick={isOpen ? close : open}>
        {formula !== undefined ? 'Verification cases of this formula' : `Verification cases of the methods of ${stage}`}
      </button>
      {fault !== undefined && <p className="fail">The cases cannot be run: {fault}</p>}
      {methods !== undefined && (
        <p className="small">
          {methods.map(({ function: name, cases: n }) => (
            <span key={name} className="each">
              <button type="button" className="link" aria-pressed={chosen === name} onClick={() => show(name)}>
                {name}
              </button>{' '}
              {n}
            </span>
          ))}
        </p>
      )}
      {cases !== undefined && <CaseTable name={chosen ?? ''} cases={cases} />}
    </div>
  )
}

const BASIS: Readonly<Record<string, string>> = {
  memory: 'from memory',
  'common practice': 'common practice, no source',
}

function CaseTable({ name, cases }: { name: string; cases: readonly VerifiedCase[] }) {
  if (cases.length === 0)
    return <p className="small">No case calls {name} by itself: the cases of what uses it hold it.</p>
  const agreeing = cases.filter((c) => c.verdict === 'pass').length
  return (
    <Scroll name={`Verification cases of ${name}`}>
      <table>
        <caption className="small">
          {name}: {agreeing} of {cases.length} agree, run just now
        </caption>
        <thead>
          <tr>
            <th scope="col" className="num">
              Expected
            </th>
            <th scope="col" className="num">
              Got
            </th>
            <th scope="col" className="num">
              Allowed
            </th>
            <th scope="col">Verdict</th>
          </tr>
        </thead>
        {cases.map((one) => (
          <CaseRows key={one.id} one={one} />
        ))}
      </table>
    </Scroll>
  )
}

/** What a case is and where it is from, and its figures beneath. */
function CaseRows({ one }: { one: VerifiedCase }) {
  const { id, title, source, basis, comparisons, verdict, reason, note } = one
  return (
    <tbody>
      <tr className="case">
        <th scope="rowgroup" colSpan={4}>
          <span className="quiet">{id}</span> {title}
          <div>
            {source} <span className="quiet">({BASIS[basis] ?? basis})</span>
          </div>
          {note !== undefined && <div className="quiet">{note}</div>}
        </th>
      </tr>
      <tr>
        <CaseColumn texts={comparisons.map((c) => (comparisons.length > 1 ? `${c.name} ${c.expected}` : c.expected))} />
        <CaseColumn texts={comparisons.map((c) => c.got)} />
        <CaseColumn texts={comparisons.map((c) => c.within)} />
        <td className={verdict === 'pass' ? '' : 'fail strong'}>
          {verdict === 'pass' ? 'agrees' : 'DIFFERS'}
          {reason !== undefined && <div>{reason}</div>}
        </td>
      </tr>
    </tbody>
  )
}

const CaseColumn = ({ texts }: { texts: readonly string[] }) => (
  <td className="num">
    {texts.map((text, i) => (
      // biome-ignore lint/suspicious/noArrayIndexKey: comparisons of a case keep their order
      <div key={i}>{text}</div>
    ))}
  </td>
)
