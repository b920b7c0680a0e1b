import './consequences.css'
import { useLayoutEffect, useState } from 'react'
import { STAGES } from '../engine/stages.ts'
import { useShown } from '../state.ts'
import { ConflictSaid } from './conflict.tsx'
import { useRemembered } from './remembered.ts'
import { TheEdit } from './theEdit.tsx'
import { UnderStage } from './underStage.tsx'

/** Whether anything hangs from the line: an edit that is looked at, one that was overtaken, or a block that was refused. */
export function useHangs(): boolean {
  const { trial, conflict, refusedLines } = useShown()
  return trial !== undefined || conflict !== undefined || refusedLines.length > 0
}

/** Stages under which findings can hang; the edit itself hangs under the project. */
const UNDER = STAGES.filter((stage) => stage !== 'project' && stage !== 'model')

/** What the edit under trial would do, each finding under its own stage of the line; nothing is kept yet. */
export function Consequences() {
  const { trial, conflict } = useShown()
  const [all, setAll] = useState(false)
  const [fold, setFold] = useRemembered('consequences', FOLDS, () => 'open')
  const hangs = useHangs()
  const columns = useColumnsOfLine(hangs)
  if (!hangs) return null
  return (
    <section className="consequences" aria-label="Consequences of this edit">
      {conflict !== undefined && <ConflictSaid conflict={conflict} />}
      <RefusedLines />
      {trial !== undefined && (
        <div
          className={fold === 'folded' ? 'hung folded' : 'hung'}
          style={{ gridTemplateColumns: fold === 'folded' ? undefined : columns }}
        >
          <TheEdit trial={trial} />
          {fold === 'open' &&
            UNDER.map((stage) => <UnderStage key={stage} stage={stage} preview={trial.preview} all={all} />)}
        </div>
      )}
      {trial !== undefined && <Told all={all} onAll={setAll} fold={fold} onFold={setFold} />}
    </section>
  )
}

/** Folded, the edit alone hangs, in a line: what is under it has the window. */
const FOLDS = ['open', 'folded'] as const
type Fold = (typeof FOLDS)[number]

interface ToldProps {
  all: boolean
  onAll: (all: boolean) => void
  fold: Fold
  onFold: (fold: Fold) => void
}

/** How much was worked out, and whether all of it is shown. */
function Told({ all, onAll, fold, onFold }: ToldProps) {
  const { trial } = useShown()
  if (trial === undefined) return null
  const { preview, pending } = trial
  const count = preview.moved.length + preview.read.length
  return (
    <div className="told">
      <span role="status">
        <span className="edit strong">Preview.</span> <span className="strong">Nothing is kept yet.</span>{' '}
        {preview.problems.length > 0 ? (
          <span className="fail strong">This is no project yet: what is wrong stands with the edit.</span>
        ) : pending ? (
          <span className="quiet">working it out</span>
        ) : (
          <span className="quiet">
            {count} of {preview.results} results read this; worked out in {preview.milliseconds.toFixed(0)} ms by the
            same engine as the host.
          </span>
        )}
      </span>
      <fieldset className="choice" aria-label="What is shown">
        {fold === 'open' && (
          <>
            <button type="button" aria-pressed={!all} onClick={() => onAll(false)}>
              moves
            </button>
            <button type="button" aria-pressed={all} onClick={() => onAll(true)}>
              all read
            </button>
          </>
        )}
        <button
          type="button"
          aria-pressed={fold === 'folded'}
          onClick={() => onFold(fold === 'open' ? 'folded' : 'open')}
        >
          fold
        </button>
      </fieldset>
    </div>
  )
}

const MOST_LINES = 12

function RefusedLines() {
  const { refusedLines, act } = useShown()
  if (refusedLines.length === 0) return null
  return (
    <div className="refused-lines">
      <p className="fail strong">Nothing of the block is kept.</p>
      <ul>
        {refusedLines.slice(0, MOST_LINES).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {refusedLines.length > MOST_LINES && (
        <p className="quiet">{refusedLines.length - MOST_LINES} more are refused.</p>
      )}
      <button type="button" onClick={() => act.refuseLines([])}>
        Close
      </button>
    </div>
  )
}

/** Widths of the line's stations, so that findings hang under their own; the edit has the first two. */
function useColumnsOfLine(hangs: boolean): string | undefined {
  const [columns, setColumns] = useState<string>()
  useLayoutEffect(() => {
    const line = document.querySelector('.stages')
    if (!hangs || line === null) return
    const measure = (): void => {
      const widths = [...line.querySelectorAll(':scope > li')].map((li) => li.getBoundingClientRect().width)
      const [project = 0, model = 0, ...others] = widths
      setColumns(innerWidth < NARROW ? undefined : [project + model, ...others].map((w) => `${w}px`).join(' '))
    }
    measure()
    const watcher = new ResizeObserver(measure)
    watcher.observe(line)
    return () => watcher.disconnect()
  }, [hangs])
  return columns
}

/** Below this width the stations are too narrow to hang anything under: findings flow beside the edit. */
const NARROW = 1200
