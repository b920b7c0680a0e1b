import { showQuantity } from '@shieldwright/engine/working/quantity.ts'
import type { SiUnit } from '@shieldwright/engine/working/unit.ts'
import { useEffect, useState } from 'react'
import type { SolidView } from '../engine/protocol.ts'
import { useShown } from '../state.ts'

/** What the solid and its part come to, and what they came to before the edit that is looked at. */
export function SolidFigures({ pointer }: { pointer: string }) {
  const { client, system, summary, trial } = useShown()
  const solid = pointer.replace(/\/[^/]+$/, '')
  const patch = trial?.patch
  const [kept, setKept] = useState<SolidView>()
  const [now, setNow] = useState<SolidView>()
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again when the project changes
  useEffect(() => {
    let here = true
    client.ask('solid', { pointer: solid, patch: undefined }).then((answer) => here && setKept(answer))
    return () => {
      here = false
    }
  }, [client, solid, summary])
  const isFree = trial?.pending !== true
  useEffect(() => {
    if (!isFree) return
    if (patch === undefined) return setNow(undefined)
    let here = true
    client.ask('solid', { pointer: solid, patch }).then((answer) => here && setNow(answer))
    return () => {
      here = false
    }
  }, [client, solid, patch, isFree])
  const shown = patch === undefined ? kept : now
  if (shown === undefined)
    return <p className="quiet small">Section, mass and centre follow once the solid is whole.</p>
  const before = patch === undefined || kept === undefined ? [] : figuresOf(kept)
  return (
    <dl className="solid-figures" aria-live="polite">
      {figuresOf(shown).map(({ title, values, unit, note }) => {
        const was = before.find((figure) => figure.title === title)
        const text = (of: Figure['values']): string => of.map((v) => showQuantity(v, unit, system)).join(', ')
        const isMoved = was !== undefined && text(was.values) !== text(values)
        return (
          <div key={title}>
            <dt>{title}</dt>
            <dd>
              <span className="strong">{text(values)}</span>
              {isMoved && <span className="quiet small"> was {text(was.values)}</span>}
              {note !== undefined && <div className="quiet small">{note}</div>}
            </dd>
          </div>
        )
      })}
    </dl>
  )
}

interface Figure {
  title: string
  values: readonly (number | undefined)[]
  unit: SiUnit
  note?: string | undefined
}

function figuresOf({ section, volume, mass, centre, part }: SolidView): Figure[] {
  const own: Figure[] = [
    { title: 'Area of the section', values: [section], unit: 'm2' },
    { title: 'Volume of this solid', values: [volume], unit: 'm3' },
    { title: 'Mass of this solid', values: [mass], unit: 'kg', note: 'density × volume × solid fraction' },
    { title: 'Centre of this solid', values: centre, unit: 'm', note: 'machine frame: x, y, z' },
  ]
  if (part === undefined) return own
  const { computed, stated, basis } = part
  return [
    ...own,
    { title: 'Mass of the part by its shape', values: [computed], unit: 'kg' },
    ...(stated === undefined ? [] : [statedMass(stated, basis)]),
    { title: 'Centre of gravity of the part', values: part.centre, unit: 'm' },
  ]
}

const statedMass = (stated: number, basis: string | undefined): Figure => ({
  title: 'Mass that the file states',
  values: [stated],
  unit: 'kg',
  note: `${basis ?? 'basis not given'}: it counts, and the shape does not move it`,
})
