import { figureOf } from '../parts/figures.ts'
import { useShown } from '../state.ts'
import type { Reach } from './reach.ts'
import { LAYERS, type Layer } from './sceneItem.ts'
import type { Section, View } from './shown.ts'

export const VIEWS: readonly { view: View; name: string; key: string }[] = [
  { view: 'overview', name: 'Whole', key: 'o' },
  { view: 'side', name: 'Side', key: 's' },
  { view: 'front', name: 'Front', key: 'f' },
  { view: 'above', name: 'Above', key: 'a' },
  { view: 'path', name: 'Path', key: 'p' },
  { view: 'selection', name: 'Look at it', key: 'l' },
]

export interface Tools {
  hidden: ReadonlySet<Layer>
  through: boolean
  ghost: boolean
  section: Section | undefined
  measuring: boolean
}

interface ToolsOf {
  tools: Tools
  present: readonly Layer[]
  selected: string | undefined
  /** Where the section can go, m. */
  reach: readonly Reach[]
  onTools: (change: Partial<Tools>) => void
  onView: (view: View) => void
}

/** How one looks, what is shown, where it is cut, and what is measured. */
export function SpaceTools({ tools, selected, reach, onTools, onView }: Omit<ToolsOf, 'present'>) {
  return (
    <div className="space-tools">
      <fieldset>
        <legend className="small quiet">Look</legend>
        {VIEWS.map(({ view, name, key }) => (
          <button
            key={view}
            type="button"
            aria-keyshortcuts={key}
            disabled={view === 'selection' && selected === undefined}
            onClick={() => onView(view)}
          >
            {name}
          </button>
        ))}
      </fieldset>
      <fieldset>
        <legend className="small quiet">See through</legend>
        <Toggle on={tools.through} name="In front of it" onTurn={(through) => onTools({ through })} />
        <Toggle on={tools.ghost} name="All but it" onTurn={(ghost) => onTools({ ghost })} />
      </fieldset>
      <fieldset>
        <legend className="small quiet">Measure</legend>
        <Toggle on={tools.measuring} name="Two points" onTurn={(measuring) => onTools({ measuring })} />
      </fieldset>
      <SectionTool section={tools.section} reach={reach} onSection={(section) => onTools({ section })} />
    </div>
  )
}

/** Layers to switch on and off. */
export function SpaceLayers({ tools, present, onTools }: Pick<ToolsOf, 'tools' | 'present' | 'onTools'>) {
  return (
    <fieldset className="space-layers">
      <legend className="small quiet">Shown</legend>
      {LAYERS.filter((layer) => present.includes(layer)).map((layer) => (
        <label key={layer}>
          <input
            type="checkbox"
            checked={!tools.hidden.has(layer)}
            onChange={(e) => onTools({ hidden: turned(tools.hidden, layer, !e.target.checked) })}
          />
          {layer}
        </label>
      ))}
    </fieldset>
  )
}

function turned(hidden: ReadonlySet<Layer>, layer: Layer, hide: boolean): ReadonlySet<Layer> {
  const next = new Set(hidden)
  if (hide) next.add(layer)
  else next.delete(layer)
  return next
}

function Toggle({ on, name, onTurn }: { on: boolean; name: string; onTurn: (on: boolean) => void }) {
  return (
    <button type="button" aria-pressed={on} onClick={() => onTurn(!on)}>
      {name}
    </button>
  )
}

const AXES = ['x', 'y', 'z'] as const

interface SectionOf {
  section: Section | undefined
  reach: ToolsOf['reach']
  onSection: (section: Section | undefined) => void
}

/** A plane across an axis of the site, moved by a slider; its place is written beside it. */
function SectionTool({ section, reach, onSection }: SectionOf) {
  const { system } = useShown()
  const own = section === undefined ? undefined : reach[section.axis]
  const shown = section === undefined ? undefined : figureOf(section.at, 'm', system, 10)
  return (
    <fieldset className="section-tool">
      <legend className="small quiet">Section across</legend>
      {AXES.map((name, i) => {
        const axis = i as Section['axis']
        const on = section?.axis === axis
        return (
          <button
            key={name}
            type="button"
            aria-pressed={on}
            aria-label={`Section across ${name}`}
            onClick={() => onSection(on ? undefined : { axis, at: reach[axis]?.start ?? 0, flipped: axis !== 0 })}
          >
            {name}
          </button>
        )
      })}
      <input
        type="range"
        aria-label="Place of the section"
        aria-valuetext={shown === undefined ? 'none' : `${shown.number} ${shown.unit}`}
        disabled={section === undefined}
        min={own?.from}
        max={own?.to}
        step={0.05}
        value={section?.at ?? 0}
        onChange={(e) => section !== undefined && onSection({ ...section, at: Number(e.target.value) })}
      />
      <output className="section-at">
        {section === undefined || shown === undefined ? (
          <span className="quiet">none</span>
        ) : (
          <>
            {AXES[section.axis]} {shown.number} <span className="small quiet">{shown.unit}</span>
          </>
        )}
      </output>
      <button
        type="button"
        disabled={section === undefined}
        onClick={() => section !== undefined && onSection({ ...section, flipped: !section.flipped })}
      >
        Other side
      </button>
    </fieldset>
  )
}
