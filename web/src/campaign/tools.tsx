import { CAMPAIGN_PAPERS } from '@shieldwright/engine/report/campaign/layout.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { Move } from './keys.ts'

/** What one has chosen to see. */
export interface Wishes {
  isEven: boolean
  glass: boolean
  withEarlier: boolean
  asTable: boolean
}

interface ToolsProps {
  wishes: Wishes
  set: (change: Partial<Wishes>) => void
  isZoomed: boolean
  hasEarlier: boolean
  onMove: (move: Move) => void
  onFit: () => void
  system: UnitSystem
  /** Restart as simulated, UTC milliseconds: printed as it is shown. */
  simulated: readonly number[] | undefined
}

/** Zoom, what is shown besides, and the sheet as a file. */
export function Tools(props: ToolsProps) {
  const { wishes, set, isZoomed, hasEarlier, onMove, onFit, system, simulated } = props
  const chances = simulated === undefined ? '' : `&simulated=${simulated.join(',')}`
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
        </button>
      </span>
      <Tick on={wishes.isEven} set={(isEven) => set({ isEven })}>
        even scale
      </Tick>
      <Tick on={wishes.glass} set={(glass) => set({ glass })}>
        lift days by the hour
      </Tick>
      {hasEarlier && (
        <Tick on={wishes.withEarlier} set={(withEarlier) => set({ withEarlier })}>
          plan before the last edit, dotted
        </Tick>
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
