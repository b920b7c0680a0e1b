import type { Line } from '@shieldwright/engine/working/show.ts'
import { useEffect, useState } from 'react'
import type { CheckView, WorkingView } from '../engine/protocol.ts'
import { useShown } from '../state.ts'

interface Place {
  check: CheckView
  side: 'demand' | 'capacity'
}

/** The working of a number: what ran, with its numbers, its limits and what it rests on; the chain can be walked down. */
export function WorkingPanel({ check, side, onClose }: Place & { onClose: () => void }) {
  const { client, system, summary } = useShown()
  const [path, setPath] = useState<readonly string[]>([])
  const [view, setView] = useState<WorkingView>()
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new summary means the same check may have a new working
  useEffect(() => {
    let here = true
    client.ask('working', { check: check.id, side, path, system }).then((answer) => here && setView(answer))
    return () => {
      here = false
    }
  }, [client, check.id, side, path, system, summary])
  if (view === undefined) return null
  return (
    <div className="working">
      <div className="titled">
        <h3>
          {side === 'demand' ? 'Demand' : 'Limit'}: {view.working.title}
        </h3>
        <span className="small quiet">
          {view.working.by}{' '}
          <button type="button" className="link" onClick={onClose}>
            close
          </button>
        </span>
      </div>
      {path.length > 0 && <Trail path={path} onGo={setPath} />}
      <Formula view={view} />
      {view.working.lines.length > 0 && (
        <Inputs lines={view.working.lines} below={view.below} onOpen={(label) => setPath([...path, label])} />
      )}
      <Facts view={view} />
    </div>
  )
}

function Trail({ path, onGo }: { path: readonly string[]; onGo: (path: readonly string[]) => void }) {
  return (
    <p className="small">
      <button type="button" className="link" onClick={() => onGo([])}>
        top
      </button>
      {path.map((label, i) => (
        <span key={path.slice(0, i + 1).join('/')}>
          {' → '}
          <button type="button" className="link" onClick={() => onGo(path.slice(0, i + 1))}>
            {label}
          </button>
        </span>
      ))}
    </p>
  )
}

function Formula({ view: { working } }: { view: WorkingView }) {
  return (
    <>
      {working.symbolic !== undefined && (
        <div className="formula">
          {working.mathml === undefined ? (
            working.symbolic
          ) : (
            <>
              <span>{working.symbolic.split('=')[0]} = </span>
              {/* biome-ignore lint/security/noDangerouslySetInnerHtml: MathML printed by the engine from its own formula tree, text escaped there */}
              <span dangerouslySetInnerHTML={{ __html: `<math>${working.mathml}</math>` }} />
            </>
          )}
        </div>
      )}
      {working.steps.map((s) => (
        <p key={s.symbol} className="small">
          {s.symbol} = {s.symbolic} = {s.numbers.split(' = ')[0]} = <span className="strong">{s.value}</span>{' '}
          <span className="quiet">{s.meaning}</span>
        </p>
      ))}
      <p>
        {working.numbers === undefined ? '' : `${working.numbers} (SI) · `}
        <span className="strong">{working.value}</span>
      </p>
    </>
  )
}

function Inputs({
  lines,
  below,
  onOpen,
}: {
  lines: readonly Line[]
  below: readonly string[]
  onOpen: (label: string) => void
}) {
  return (
    <table>
      <tbody>
        {lines.map((line) => (
          <tr key={line.key}>
            <th scope="row">
              {line.symbol}
              {line.meaning === line.symbol ? '' : <span className="quiet"> {line.meaning}</span>}
            </th>
            <td className="num">{line.value}</td>
            <td className="small">
              {line.pointer ??
                (below.includes(line.key) && (
                  <button type="button" className="link" onClick={() => onOpen(line.key)}>
                    working
                  </button>
                ))}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function Facts({ view: { working } }: { view: WorkingView }) {
  return (
    <dl>
      {working.limits.length > 0 && (
        <>
          <dt>Valid</dt>
          <dd>{working.limits.map((l) => `${l.limit}: ${l.holds ? 'holds' : 'does not hold'}`).join(' · ')}</dd>
        </>
      )}
      {working.residuals.length > 0 && (
        <>
          <dt>Residuals</dt>
          <dd>{working.residuals.map((r) => `${r.title} ${r.value} (≤ ${r.tolerance})`).join(' · ')}</dd>
        </>
      )}
      {working.source !== undefined && (
        <>
          <dt>Source</dt>
          <dd>
            {working.source.text} ({working.source.basis})
          </dd>
        </>
      )}
      {working.note !== undefined && (
        <>
          <dt>Note</dt>
          <dd>{working.note}</dd>
        </>
      )}
    </dl>
  )
}
