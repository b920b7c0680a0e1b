import './lastEdit.css'
import { useEffect } from 'react'
import type { Preview } from '../engine/protocol.ts'
import { routeTo, useShown } from '../state.ts'
import { timeText } from './head.tsx'
import { inOrder, restartWords, turnsOf } from './moved.ts'
import { remember } from './remembered.ts'

/** The last edit in one sentence, spoken politely; with the way on to what it moved, and the way back. */
export function LastEdit() {
  const { last, act, refused, revision, history } = useShown()
  useRememberedOutcome(revision, last?.preview)
  const first = last === undefined ? undefined : inOrder(last.preview.moved)[0]
  return (
    <div className="last">
      <div role="status">{refused.length > 0 ? <Refused /> : last === undefined ? <NoEdit /> : <Told />}</div>
      <span className="gap" />
      {first !== undefined && <a href={routeTo('project', first.check.id)}>Follow it</a>}
      <Back name="Undo" what={history.undo} onGo={act.undo} />
      <Back name="Redo" what={history.redo} onGo={act.redo} />
    </div>
  )
}

const NoEdit = () => <span className="quiet">No edit since this page was opened.</span>

function Refused() {
  const { refused } = useShown()
  const [first] = refused
  return (
    <span className="fail strong">
      Not kept. {first?.pointer} {first?.pointer ? 'found' : ''} {first?.found}, expected {first?.expected}
      {refused.length > 1 ? `; and ${refused.length - 1} more` : ''}
    </span>
  )
}

function Told() {
  const { last } = useShown()
  if (last === undefined) return null
  return (
    <>
      <span className="edit strong">Last edit</span>{' '}
      {last.elsewhere !== undefined && (
        <span className="quiet">
          changed by another page just now, {timeText(Date.parse(last.elsewhere.at))} by {last.elsewhere.by} ·{' '}
        </span>
      )}
      {last.what}: <Outcome preview={last.preview} />
    </>
  )
}

function Back({ name, what, onGo }: { name: string; what: string | undefined; onGo: () => void }) {
  if (what === undefined) return null
  return (
    <button type="button" className="link" onClick={onGo} title={what}>
      {name}
      <span className="unseen"> {what}</span>
    </button>
  )
}

/** What moved, in words: newly failing first. */
export function Outcome({ preview }: { preview: Preview }) {
  const turns = turnsOf(preview.moved).filter(([turn]) => turn !== 'moves')
  const { length } = preview.moved
  const restart = restartWords(preview)
  const parts = [
    ...turns.map(([turn, n]) => (
      <span key={turn} className={turn === 'newly FAIL' ? 'fail strong' : undefined}>
        {n} {turn}
      </span>
    )),
    <span key="moves">
      {length === 0 ? 'no check moves' : `${length} ${length === 1 ? 'check moves' : 'checks move'}`}
    </span>,
    ...(restart === undefined ? [] : [<span key="restart">{restart}</span>]),
  ]
  return <>{parts.flatMap((p, i) => (i === 0 ? [p] : [', ', p]))}</>
}

/** What an edit changed stays known to this browser, by the revision it made. */
function useRememberedOutcome(revision: number, preview: Preview | undefined): void {
  useEffect(() => {
    if (preview !== undefined) remember(`changed.${revision}`, outcomeText(preview))
  }, [revision, preview])
}

function outcomeText({ moved }: Preview): string {
  const turns = turnsOf(moved).filter(([turn]) => turn !== 'moves')
  if (turns.length > 0) return turns.map(([turn, n]) => `${n} ${turn}`).join(', ')
  return moved.length === 0 ? 'nothing moves' : `${moved.length} move`
}
