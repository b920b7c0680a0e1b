import type { Line, Working } from '@shieldwright/engine/working/show.ts'
import type { WorkingView } from '../engine/protocol.ts'
import { Scroll } from './scroll.tsx'
import { Cases } from './workingCases.tsx'
import { Leaf } from './workingLeaf.tsx'

interface BodyProps {
  view: WorkingView
  path: readonly string[]
  onGo: (path: readonly string[]) => void
}

/** One level of a working: formula, inputs, and the facts that a checker asks for. */
export function WorkingBody({ view, path, onGo }: BodyProps) {
  const { working, leaf } = view
  if (leaf !== undefined) return <Leaf leaf={leaf} value={working.value} />
  return (
    <>
      <FormulaLines working={working} />
      {working.lines.length > 0 && <Inputs lines={working.lines} onDown={(key) => onGo([...path, key])} />}
      <dl>
        <Limits working={working} />
        <Residuals working={working} />
        <Sensitivities working={working} />
        {working.source !== undefined && (
          <Row name="Source">
            {working.source.text} <span className="quiet">({BASIS_WORDS[working.source.basis]})</span>
          </Row>
        )}
        {working.note !== undefined && <Row name="Note">{working.note}</Row>}
        <Rests view={view} onGo={onGo} />
      </dl>
      <Cases
        formula={working.source === undefined ? undefined : working.by}
        isMethod={working.by === 'method'}
        stage={view.stage}
      />
    </>
  )
}

const BASIS_WORDS: Readonly<Record<string, string>> = {
  read: 'read in the source',
  memory: 'from memory',
  derived: 'derived',
  'common practice': 'common practice, no source',
}

function Row({ name, children }: { name: string; children: React.ReactNode }) {
  return (
    <>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </>
  )
}

/** Symbols, the same with numbers, and the result; named values on the way beneath. */
function FormulaLines({ working }: { working: Working }) {
  const { mathml, symbolMathml = '', numbersMathml, steps, value } = working
  return (
    <>
      {mathml !== undefined && <MathLine of={`${symbolMathml}<mo>=</mo>${mathml}`} />}
      {numbersMathml !== undefined && (
        <MathLine of={`${symbolMathml}<mo>=</mo>${numbersMathml}`} after={isSi(working) ? 'in kg, m, s, N, rad' : ''} />
      )}
      {steps.length > 0 && <p className="small quiet">where</p>}
      {steps.map((s) => (
        <div key={s.symbol} className="step">
          <MathLine
            of={`${s.mathml.symbol}<mo>=</mo>${s.mathml.symbolic}<mo>=</mo>${s.mathml.numbers}`}
            after={`${s.meaning}, ${s.value}`}
          />
        </div>
      ))}
      {isSi(working) && (
        <p className="result">
          {mathml === undefined ? '' : <MathText of={`${symbolMathml}<mo>=</mo>`} />}
          <span className="strong">{value}</span>
        </p>
      )}
    </>
  )
}

/** A use is written in the units of its line; a formula in SI, as it ran. */
const isSi = ({ symbolic }: Working): boolean => symbolic !== 'use = demand / limit'

function MathText({ of }: { of: string }) {
  // biome-ignore lint/security/noDangerouslySetInnerHtml: MathML printed by the engine from its own formula tree, text escaped there
  return <span dangerouslySetInnerHTML={{ __html: `<math displaystyle="true">${of}</math>` }} />
}

function MathLine({ of, after = '' }: { of: string; after?: string }) {
  return (
    <Scroll name="Formula">
      <div className="formula">
        <MathText of={of} />
        {after !== '' && <span className="small quiet"> {after}</span>}
      </div>
    </Scroll>
  )
}

function Inputs({ lines, onDown }: { lines: readonly Line[]; onDown: (key: string) => void }) {
  return (
    <table className="inputs">
      <tbody>
        {lines.map((line) => (
          <tr key={line.key}>
            <th scope="row">
              {line.kind === 'stated' ? (
                <InputName line={line} />
              ) : (
                <button type="button" className="opens" data-down={line.key} onClick={() => onDown(line.key)}>
                  <InputName line={line} />
                </button>
              )}
            </th>
            <td className="num">{line.value}</td>
            <td className="small quiet">{KIND_WORDS[line.kind] ?? line.basis ?? 'input'}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

const KIND_WORDS: Readonly<Record<string, string>> = {
  stated: 'constant',
  worked: 'worked',
  sum: 'sum',
  largest: 'largest',
  least: 'least',
  found: 'method',
}

function InputName({ line }: { line: Line }) {
  return (
    <>
      {line.symbol}
      {line.meaning !== line.key && line.meaning !== line.symbol && <span className="quiet"> {line.meaning}</span>}
    </>
  )
}

function Limits({ working: { limits } }: { working: Working }) {
  if (limits.length === 0) return null
  return (
    <Row name="Valid">
      {limits.map(({ limit, holds }) => (
        <span key={limit} className={holds ? 'each' : 'each fail strong'}>
          {limit}: <span className="strong">{holds ? 'holds' : 'does not hold'}</span>
        </span>
      ))}
    </Row>
  )
}

function Residuals({ working: { residuals } }: { working: Working }) {
  if (residuals.length === 0) return null
  return (
    <Row name="Residual">
      {residuals.map(({ title, value, tolerance, holds }) => (
        <span key={title} className={holds ? 'each' : 'each fail strong'}>
          {title} {value}, at most {tolerance}: <span className="strong">{holds ? 'closes' : 'does not close'}</span>
        </span>
      ))}
    </Row>
  )
}

/** "1 t more of m → +0.0015", what moves the result most first. */
function Sensitivities({ working: { sensitivity } }: { working: Working }) {
  if (sensitivity.length === 0) return null
  return (
    <Row name="One more">
      {sensitivity.map(({ key, symbol, per, effect }) => (
        <span key={key} className="each">
          {per} of {symbol} <span aria-hidden="true">→</span> <span className="strong">{effect}</span>
        </span>
      ))}
    </Row>
  )
}

const FEW = 6

function Rests({ view: { restsOn, more }, onGo }: { view: WorkingView; onGo: BodyProps['onGo'] }) {
  if (restsOn.length === 0) return null
  const links = (from: number, to?: number) =>
    restsOn.slice(from, to).map(({ pointer, path, missing }) => (
      <span key={pointer} className="each">
        <button type="button" className="link" onClick={() => onGo(path)}>
          {pointer}
        </button>
        {missing && <span className="strong"> not given</span>}
      </span>
    ))
  return (
    <Row name="Rests on">
      {links(0, FEW)}
      {restsOn.length > FEW && (
        <details>
          <summary>{restsOn.length - FEW + more} more inputs</summary>
          {links(FEW)}
          {more > 0 && <span className="quiet">and {more} not listed</span>}
        </details>
      )}
    </Row>
  )
}
