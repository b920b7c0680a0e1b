import { at, pointerOf, readPointer } from '@shieldwright/engine/working/pointer.ts'
import { ValueField } from '../edit/valueField.tsx'
import { useShown } from '../state.ts'
import { dateText } from './figures.ts'

/** An input of the project file: as it was typed, how it is known, from where and when; changed in place. */
export function Leaf({
  leaf: { pointer, basis },
  value,
}: {
  leaf: { pointer: string; basis: string | undefined }
  value: string
}) {
  const { document } = useShown()
  const path = readPointer(pointer) ?? []
  const typed = at(document, pointer)
  const beside = besideOf(document, path)
  const name = nameOf(document, path)
  return (
    <dl className="leaf">
      <dt>In the file</dt>
      <dd>
        <ValueField pointer={pointer} name={`${name}, ${path.slice(2).join(' ')}`} />
        {typed === undefined && <span className="small quiet"> not given: what rests on it is open</span>}
      </dd>
      <dt>Read as</dt>
      <dd>{value}</dd>
      <dt>Of</dt>
      <dd>{name}</dd>
      {basis !== undefined && (
        <>
          <dt>Basis</dt>
          <dd>{basis}</dd>
        </>
      )}
      {beside.map(([label, text]) => (
        <div key={label} className="pair">
          <dt>{label}</dt>
          <dd>{text}</dd>
        </div>
      ))}
      <dt>Stands at</dt>
      <dd>
        <code>{pointer}</code>
      </dd>
    </dl>
  )
}

const BESIDE: Readonly<Record<string, string>> = {
  source: 'Source',
  date: 'Date',
  on: 'Date',
  uncertainty: 'Standard uncertainty',
  accuracy: 'Accuracy',
  note: 'Note',
  until: 'Until',
  report: 'Report',
  signedBy: 'Signed by',
}

/** What stands beside a value and says how it is known. */
function besideOf(document: unknown, path: readonly string[]): [label: string, text: string][] {
  const holder = at(document, pointerOf(...path.slice(0, -1)))
  if (typeof holder !== 'object' || holder === null || Array.isArray(holder)) return []
  return Object.entries(holder).flatMap(([key, value]): [string, string][] => {
    const label = key === path.at(-1) ? undefined : BESIDE[key]
    if (label === undefined || typeof value === 'object') return []
    const instant = Date.parse(String(value))
    return [[label, label === 'Date' && !Number.isNaN(instant) ? dateText(instant) : String(value)]]
  })
}

/** The entity by its name, else by its id; a setting by its own words. */
function nameOf(document: unknown, path: readonly string[]): string {
  const [collection = '', id] = path
  if (id === undefined) return collection
  const entity = at(document, pointerOf(collection, id)) as { name?: unknown } | undefined
  return typeof entity?.name === 'string' ? `${entity.name} (${id})` : `${collection}, ${id}`
}
