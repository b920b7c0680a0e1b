import { CAMPAIGN_PAPERS } from '@shieldwright/engine/report/campaign/layout.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { Move } from './keys.ts'
import type { Dotted } from './view.ts'

/** What one has chosen to see. */
export interface Wishes {
  isEven: boolean
  glass: boolean
  dotted: Dotted
  asTable: boolean
}

interface ToolsProps {
  wishes: Wishes
  set: (change: Partial<Wishes>) => void
  isZoomed: boolean
  hasEarlier: boolean
  /** What the agreed plan is called. */
  agreed: string | undefined
  onMove: (move: Move) => void
  onFit: () => void
  system: UnitSystem
  /** Restart as simulated, UTC milliseconds: printed as it is shown. */
  simulated: readonly number[] | undefined
}

/** Zoom, what is shown besides, and the sheet as a file. */
export function Tools(props: ToolsProps) {
  const { wishes, set, isZoomed, hasEarlier, agreed, onMove, onFit, system, simulated } = props
  const chances = simulated === undefined ? '' : `&simulated=${simulated.join(',')}`
  const shown = wishes.dotted === 'earlier' && !hasEarlier ? 'agreed' : wishes.dotted
  const file = (kind: 'pdf' | 'svg', paper: string): string =>
    `/api/report/campaign.${kind}?paper=${paper}&units=${system}${chances}`
  return (
    <div className="tools small">
      <span>
        <button type="button" aria-label="Less time, closer" onClick={() => onMove({ kind: 'zoom', factor: 0.6 })}>
          +
        </button>{' '}
        <button
          type="button"
          aria-label="More time"
          disabled={!isZoomed}
          onClick={() => onMove({ kind: 'zoom', factor: 1 / 0.6 })}
        >
          −
        </button>{' '}
        <button type="button" disabled={!isZoomed} onClick={onFit}>
          All of it
        </button>{' '}
        <button type="button" onClick={() => onMove({ kind: 'shift' })}>
          One shift
        </button>
      </span>
      <Tick on={wishes.isEven} set={(isEven) => set({ isEven })}>
        even scale
      </Tick>
      <Tick on={wishes.glass} set={(glass) => set({ glass })}>
        lift days by the hour
      </Tick>
      {(hasEarlier || agreed !== undefined) && (
        <label>
          dotted
          <select value={shown} onChange={(e) => set({ dotted: e.target.value as Dotted })}>
            {hasEarlier && <option value="earlier">the plan before the last edit</option>}
            {agreed !== undefined && <option value="agreed">as agreed: {agreed}</option>}
            <option value="none">nothing</option>
          </select>
        </label>
      )}
      <Tick on={wishes.asTable} set={(asTable) => set({ asTable })}>
        as a table
      </Tick>
      <span className="gap" />
      <span className="print">
        PDF
        {CAMPAIGN_PAPERS.map((paper) => (
          <a key={paper} href={file('pdf', paper)} target="_blank" rel="noreferrer" aria-label={`PDF, ${paper}`}>
            {paper}
          </a>
        ))}
        SVG
        {CAMPAIGN_PAPERS.map((paper) => (
          <a key={paper} href={file('svg', paper)} download={`campaign-${paper}.svg`} aria-label={`SVG, ${paper}`}>
            {paper}
          </a>
        ))}
      </span>
    </div>
  )
}

function Tick({ on, set, children }: { on: boolean; set: (on: boolean) => void; children: React.ReactNode }) {
  return (
    <label>
      <input type="checkbox" checked={on} onChange={(e) => set(e.target.checked)} />
      {children}
    </label>
  )
}
