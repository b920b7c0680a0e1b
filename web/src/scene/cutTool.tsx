import { routeTo } from '../state.ts'
import type { Cut } from './cuts.ts'

interface CutToolOf {
  cuts: readonly Cut[]
  chosen: Cut | undefined
  onCut: (pointer: string | undefined) => void
}

const KINDS = [
  ['step', 'Steps of the order'],
  ['joint', 'Joints'],
] as const

/** Which cut has its services marked in the drawing; they stand here as a list. */
export function CutTool({ cuts, chosen, onCut }: CutToolOf) {
  if (cuts.length === 0) return null
  return (
    <div className="cut-tool">
      <label>
        <span className="small quiet">Services that cross</span>
        <select value={chosen?.pointer ?? ''} onChange={(e) => onCut(e.target.value || undefined)}>
          <option value="">no cut</option>
          {KINDS.map(([kind, name]) => (
            <optgroup key={kind} label={name}>
              {cuts
                .filter((cut) => cut.kind === kind)
                .map((cut) => (
                  <option key={cut.pointer} value={cut.pointer}>
                    {cut.name} ({cut.services.length})
                  </option>
                ))}
            </optgroup>
          ))}
        </select>
      </label>
      {chosen !== undefined && (
        <ul aria-label="Services of the cut" className="small">
          {chosen.services.map(({ id, tag, state, words }) => (
            <li key={id}>
              <a href={routeTo('model', `services/${id}`)}>{tag}</a>{' '}
              <span className={state === 'open' ? 'verdict open' : 'strong'}>{state}</span>
              <div className="quiet">{words}</div>
            </li>
          ))}
        </ul>
      )}
    </div>
  )
}
