import type { Preview } from '../engine/protocol.ts'
import { useShown } from '../state.ts'

/** The last edit in one sentence, spoken politely; with the way back. */
export function LastEdit() {
  const { last, act, refused } = useShown()
  return (
    <div className="last" role="status">
      {refused.length > 0 && (
        <span className="fail strong">
          Not kept. {refused[0]?.pointer}: {refused[0]?.expected}
        </span>
      )}
      {last === undefined ? (
        <span className="quiet">No edit since this page was opened.</span>
      ) : (
        <>
          <span>
            <span className="edit strong">Last edit</span> {last.what}: <Outcome preview={last.preview} />
          </span>
          <span className="gap" />
          <button type="button" className="link" onClick={act.undo}>
            Undo
          </button>
        </>
      )}
    </div>
  )
}

/** What moved, in words: newly failing first. */
export function Outcome({ preview }: { preview: Preview }) {
  const newly = (verdict: string): number =>
    preview.moved.filter((m) => m.check.verdict === verdict && m.before?.verdict !== verdict).length
  const [fails, nears, opens] = [newly('fail'), newly('near'), newly('open')]
  const mended = preview.moved.filter((m) => m.before?.verdict === 'fail' && m.check.verdict !== 'fail').length
  const parts = [
    fails > 0 && (
      <span key="f" className="fail strong">
        {fails} newly FAIL
      </span>
    ),
    nears > 0 && <span key="n">{nears} newly near</span>,
    opens > 0 && <span key="o">{opens} newly open</span>,
    mended > 0 && <span key="m">{mended} no longer fail</span>,
    <span key="r">{restartWords(preview)}</span>,
  ].filter((p) => p !== false)
  return <>{parts.flatMap((p, i) => (i === 0 ? [p] : [', ', p]))}</>
}

const DAY = 86_400_000

function restartWords({ restartBefore, restartAfter, moved }: Preview): string {
  const count =
    moved.length === 0 ? 'no check moves' : `${moved.length} ${moved.length === 1 ? 'figure moves' : 'figures move'}`
  if (restartBefore === undefined || restartAfter === undefined) return count
  const days = (restartAfter - restartBefore) / DAY
  if (Math.abs(days) < 0.05) return `${count}, restart stays`
  return `${count}, restart ${Math.abs(days).toFixed(1)} d ${days > 0 ? 'later' : 'earlier'}`
}
