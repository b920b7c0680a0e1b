import type { CheckView, FigureMoved, Moved, Preview, StartMoved } from '../engine/protocol.ts'
import { dateText, figureOf, textOfUse } from '../parts/figures.ts'
import { VERDICT_WORD, VerdictMark } from '../parts/verdict.tsx'
import { useShown } from '../state.ts'
import { inOrder, turnOf } from './moved.ts'

interface UnderProps {
  stage: string
  preview: Preview
  /** Not only what moves. */
  all: boolean
}

/** Verdicts that change, then uses that move, then no more than the eye takes in. */
const MOST_TURNS = 8
const MOST_USES = 3
const MOST_FIGURES = 5
const MOST_READ = 60
const MOST_GONE = 4

/** What an edit would do to one stage: verdicts that change first, then what moves most; all that read it when asked. */
export function UnderStage({ stage, preview, all }: UnderProps) {
  const reach = preview.reach[stage] ?? 'none'
  const moved = inOrder(preview.moved.filter((m) => m.check.stage === stage))
  const gone = preview.gone.filter((check) => check.stage === stage)
  const figures = preview.figures.filter((f) => f.stage === stage)
  return (
    <div className={`under ${reach}`}>
      <h2>
        <span className="stage">{stage} </span>
        <span className="quiet small">{countText(moved.length, reach)}</span>
      </h2>
      <div className="list">
        {stage === 'mass' && <Figures figures={figures} all={all} />}
        {stage === 'programme' && <Restart preview={preview} />}
        <MovedLines moved={moved} all={all} />
        {stage !== 'mass' && <Figures figures={figures} all={all} />}
        {gone.slice(0, all ? MOST_READ : MOST_GONE).map((check) => (
          <p key={check.id} className="small quiet">
            {check.subjectName}, {check.title.toLowerCase()}: no longer there
          </p>
        ))}
        {gone.length > MOST_GONE && <p className="small quiet">{gone.length} are no longer there</p>}
        {stage === 'programme' &&
          preview.starts.slice(0, all ? 12 : 3).map((start) => <Start key={start.id} start={start} />)}
        {stage === 'risk' && <RiskStale preview={preview} />}
        {all && <ReadLines stage={stage} preview={preview} />}
      </div>
    </div>
  )
}

function countText(moved: number, reach: string): string {
  if (moved > 0) return moved === 1 ? '1 moves' : `${moved} move`
  return reach === 'read' ? 'read, unmoved' : reach === 'moved' ? 'moves' : ''
}

function MovedLines({ moved, all }: { moved: readonly Moved[]; all: boolean }) {
  const turns = moved.filter((m) => turnOf(m) !== 'moves')
  const uses = moved.filter((m) => turnOf(m) === 'moves')
  const shown = all ? moved : [...turns.slice(0, MOST_TURNS), ...uses.slice(0, MOST_USES)]
  return (
    <>
      {shown.map((m) => (
        <MovedLine key={m.check.id} {...m} />
      ))}
      {moved.length > shown.length && (
        <p className="small quiet">
          {moved.length - shown.length} more move{turns.length > MOST_TURNS ? '' : ' and keep their verdict'}
        </p>
      )}
    </>
  )
}

function MovedLine({ check, before }: Moved) {
  return (
    <div className="moved">
      <div>
        {check.subjectName}, {check.title.toLowerCase()}
      </div>
      <div>
        {before === undefined ? <span className="quiet">new</span> : <Short check={before} quiet />}{' '}
        <span className="edit">→</span> <Short check={check} word={before?.verdict !== check.verdict} />
      </div>
    </div>
  )
}

function Short({ check, quiet = false, word = true }: { check: CheckView; quiet?: boolean; word?: boolean }) {
  const { system } = useShown()
  const figure = figureOf(check.demand, check.unit, system)
  const said = check.utilisation === undefined ? `${figure.number} ${figure.unit}` : textOfUse(check.utilisation)
  return (
    <span className={`verdict ${quiet ? 'quiet' : check.verdict}`}>
      <VerdictMark verdict={check.verdict} />
      <span>
        {word || quiet ? `${VERDICT_WORD[check.verdict]} ` : ''}
        {check.verdict === 'open' ? '' : said}
      </span>
    </span>
  )
}

function Figures({ figures, all }: { figures: readonly FigureMoved[]; all: boolean }) {
  return figures
    .slice(0, all ? figures.length : MOST_FIGURES)
    .map((figure) => <FigureLine key={figure.pointer + figure.what} figure={figure} />)
}

function FigureLine({ figure: { name, what, unit, before, after } }: { figure: FigureMoved }) {
  const { system } = useShown()
  const [was, is] = [figureOf(before, unit, system, after), figureOf(after, unit, system)]
  const difference = before === undefined || after === undefined ? undefined : after - before
  return (
    <div className="moved">
      <div>
        {name} <span className="quiet small">{what}</span>
      </div>
      <div>
        <span className="quiet">{before === undefined ? 'none' : was.number}</span> <span className="edit">→</span>{' '}
        <span className="strong">{after === undefined ? 'none' : is.number}</span>{' '}
        <span className="unit">{is.unit}</span>
        {difference !== undefined && (
          <span className="quiet small">
            {' '}
            {difference > 0 ? '+' : ''}
            {figureOf(difference, unit, system, after).number}
          </span>
        )}
      </div>
    </div>
  )
}

const DAY = 86_400_000

/** Days between two instants, signed: "+6.2 d". */
function daysText(before: number, after: number): string {
  const days = (after - before) / DAY
  return `${days > 0 ? '+' : '−'}${Math.abs(days).toFixed(1)} d`
}

function Restart({ preview: { restartBefore: was, restartAfter: is } }: { preview: Preview }) {
  if (was === is) return null
  return (
    <div className="moved">
      <div className="strong">Restart</div>
      <div>
        <span className="quiet">{was === undefined ? 'no date' : dateText(was, false)}</span>{' '}
        <span className="edit">→</span>{' '}
        <span className="strong">{is === undefined ? 'no date' : dateText(is, false)}</span>
        {was !== undefined && is !== undefined && <span> {daysText(was, is)}</span>}
      </div>
    </div>
  )
}

function Start({ start: { name, before, after } }: { start: StartMoved }) {
  return (
    <div className="moved small">
      <div>{name}</div>
      <div>
        <span className="quiet">{before === undefined ? 'none' : dateText(before, false)}</span>{' '}
        <span className="edit">→</span> {after === undefined ? 'none' : dateText(after, false)}
      </div>
    </div>
  )
}

/** A simulation kept from before no longer stands once the plan or a lift moves. */
function RiskStale({ preview }: { preview: Preview }) {
  const { risk } = useShown()
  const moves = ['lift', 'programme', 'risk'].some((stage) => preview.reach[stage] === 'moved')
  if (risk === undefined || !moves) return null
  return <p className="small">P50 {dateText(risk.p50, false)} → stale once kept</p>
}

function ReadLines({ stage, preview }: { stage: string; preview: Preview }) {
  const { summary } = useShown()
  const ids = new Set(preview.read)
  const read = summary.checks.filter((check) => check.stage === stage && ids.has(check.id))
  return (
    <>
      {read.slice(0, MOST_READ).map((check) => (
        <p key={check.id} className="small quiet">
          {check.subjectName}, {check.title.toLowerCase()}: {VERDICT_WORD[check.verdict]} {textOfUse(check.utilisation)}
        </p>
      ))}
      {read.length > MOST_READ && <p className="small quiet">{read.length - MOST_READ} more read it and stay</p>}
    </>
  )
}
