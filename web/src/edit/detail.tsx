import './detail.css'
import { at, pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { useState } from 'react'
import { drawnAt } from '../profile/corners.ts'
import { Profile } from '../profile/profile.tsx'
import { redrawn } from '../profile/redrawn.ts'
import { useShown } from '../state.ts'
import { type Field, isCell, type NamedField, variantOf } from './field.ts'
import { blank, freeId } from './grid.ts'
import { isAttached, Photographs } from './photographs.tsx'
import { fieldAt, useProjectField } from './schema.ts'
import { ValueField } from './valueField.tsx'

interface FieldsProps {
  /** Address of what is shown whole. */
  pointer: string
  name: string
  /** Addresses that are shown elsewhere. */
  without?: readonly string[]
}

/** Every field of one thing in the file, nested, each to be changed in place; what is not given can be added. */
export function Fields({ pointer, name, without = [] }: FieldsProps) {
  const { document, trial } = useShown()
  const project = useProjectField()
  const shown = trial?.document ?? document
  const field = fieldAt(project, shown, pointer)
  if (field === undefined) return null
  return <FieldsOf field={field} value={at(shown, pointer)} pointer={pointer} name={name} without={without} />
}

interface Inside {
  field: Field
  value: unknown
  pointer: string
  name: string
  without?: readonly string[]
}

function FieldsOf({ field, value, pointer, name, without = [] }: Inside) {
  if (isCell(field)) return <ValueField pointer={pointer} name={name} />
  switch (field.kind) {
    case 'object':
      return <ObjectFields fields={field.fields} value={value} pointer={pointer} name={name} without={without} />
    case 'variants':
      return <VariantFields field={field} value={value} pointer={pointer} name={name} />
    case 'map':
      return <Entries item={field.item} value={value} pointer={pointer} name={name} />
    case 'objects':
      return <Items item={field.item} value={value} pointer={pointer} name={name} />
    default:
      return field satisfies never
  }
}

/** "timeOff" → "time off". */
export const spaced = (name: string): string => name.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase()

function ObjectFields({
  fields,
  value,
  pointer,
  name,
  without,
}: {
  fields: readonly NamedField[]
  value: unknown
  pointer: string
  name: string
  without: readonly string[]
}) {
  const held = value as Readonly<Record<string, unknown>> | undefined
  const shown = fields.filter((f) => !without.includes(pointer + pointerOf(f.name)))
  const inCell = shown.filter((f) => isCell(f.field))
  const inner = shown.filter((f) => !isCell(f.field))
  return (
    <dl className="fields">
      {inCell.map((f) => (
        <div key={f.name} className="pair">
          <dt>
            {spaced(f.name)}
            {'unit' in f.field && f.field.meaning !== '' && <div className="meaning">{f.field.meaning}</div>}
          </dt>
          <dd>
            <ValueField pointer={pointer + pointerOf(f.name)} name={`${name}, ${spaced(f.name)}`} />
          </dd>
        </div>
      ))}
      {inner.map((f) => (
        <div key={f.name} className="inner">
          <Inner
            named={f}
            value={held?.[f.name]}
            pointer={pointer + pointerOf(f.name)}
            name={`${name}, ${spaced(f.name)}`}
          />
        </div>
      ))}
    </dl>
  )
}

function Inner({ named, value, pointer, name }: { named: NamedField; value: unknown; pointer: string; name: string }) {
  const { act, readOnly } = useShown()
  if (isAttached(pointer))
    return (
      <>
        <dt className="titled">
          <span className="strong">{spaced(named.name)}</span>
        </dt>
        <dd>
          <Photographs pointer={pointer} name={name} value={value} />
        </dd>
      </>
    )
  const put = (): void => act.tryOut([{ op: 'add', path: pointer, value: blank(named.field) }], `${name} added`)
  const takeAway = (): void => act.tryOut([{ op: 'remove', path: pointer }], `${name} removed`)
  const drawn = drawnAt(pointer)
  const fields = <FieldsOf field={named.field} value={value} pointer={pointer} name={name} />
  return (
    <>
      <dt className="titled">
        <span className="strong">{spaced(named.name)}</span>
        {readOnly === undefined &&
          (value === undefined ? (
            <button type="button" className="link small" onClick={put} aria-label={`Add ${name}`}>
              add
            </button>
          ) : (
            !named.required && (
              <button type="button" className="link small" onClick={takeAway} aria-label={`Remove ${name}`}>
                remove
              </button>
            )
          ))}
      </dt>
      {value !== undefined && (
        <dd>
          {drawn === undefined ? fields : <Profile pointer={pointer} name={name} drawn={drawn} otherwise={fields} />}
        </dd>
      )}
    </>
  )
}

function VariantFields({ field, value, pointer, name }: Inside & { field: Extract<Field, { kind: 'variants' }> }) {
  const { act, readOnly } = useShown()
  const now = variantOf(field, value)
  const choose = (chosen: string): void => {
    const variant = field.of.find((v) => v.name === chosen)
    if (variant !== undefined)
      act.tryOut([{ op: 'replace', path: pointer, value: blank(variant.field) }], `${name}: ${chosen}`)
  }
  return (
    <>
      <select
        aria-label={`${name}, kind`}
        value={now?.name ?? ''}
        disabled={readOnly !== undefined}
        onChange={(e) => choose(e.target.value)}
      >
        {now === undefined && <option value="">none</option>}
        {field.of.map((v) => (
          <option key={v.name}>{v.name}</option>
        ))}
      </select>
      {readOnly === undefined && <Redraw solid={value} pointer={pointer} name={name} />}
      {now !== undefined && <FieldsOf field={now.field} value={value} pointer={pointer} name={name} />}
    </>
  )
}

/** Makes of a plain shape a line that can be drawn on; nothing where no line makes that shape. */
function Redraw({ solid, pointer, name }: { solid: unknown; pointer: string; name: string }) {
  const { act, system } = useShown()
  const value = SOLID.test(pointer) ? redrawn(solid, system) : undefined
  if (value === undefined) return null
  return (
    <button
      type="button"
      className="link small"
      aria-label={`${name}: draw its profile`}
      onClick={() => act.tryOut([{ op: 'replace', path: pointer, value }], `${name}: drawn as a line of corners`)}
    >
      draw its profile
    </button>
  )
}

const SOLID = /\/solids\/\d+$/

/** Things by their id. */
function Entries({ item, value, pointer, name }: { item: Field; value: unknown; pointer: string; name: string }) {
  const { act, readOnly } = useShown()
  const [id, setId] = useState('')
  const held = (value ?? {}) as Readonly<Record<string, unknown>>
  const keys = Object.keys(held)
  const add = (): void => {
    const key = id.trim() === '' ? freeId(new Set(keys), keys.at(-1) ?? 'new') : id.trim()
    act.tryOut([{ op: 'add', path: pointer + pointerOf(key), value: blank(item) }], `${name}: ${key} added`)
    setId('')
  }
  return (
    <>
      {keys.map((key) => (
        <Entry
          key={key}
          title={key}
          item={item}
          value={held[key]}
          pointer={pointer + pointerOf(key)}
          name={`${name} ${key}`}
        />
      ))}
      {readOnly === undefined && (
        <p className="small">
          <input
            className="id"
            aria-label={`Id of a new one in ${name}`}
            placeholder="id"
            value={id}
            onChange={(e) => setId(e.target.value)}
          />{' '}
          <button type="button" className="link" onClick={add}>
            add one
          </button>
        </p>
      )}
    </>
  )
}

/** Things in a list. */
function Items({ item, value, pointer, name }: { item: Field; value: unknown; pointer: string; name: string }) {
  const { act, readOnly } = useShown()
  const held = (value ?? []) as readonly unknown[]
  const add = (): void =>
    act.tryOut([{ op: 'add', path: `${pointer}/-`, value: blank(item) }], `${name}: one added`, pointer)
  return (
    <>
      {held.map((inner, i) => (
        <Entry
          // biome-ignore lint/suspicious/noArrayIndexKey: an item of a list is known by its place
          key={i}
          title={String(i + 1)}
          item={item}
          value={inner}
          pointer={`${pointer}/${i}`}
          name={`${name} ${i + 1}`}
        />
      ))}
      {readOnly === undefined && (
        <button type="button" className="link small" onClick={add}>
          add one
        </button>
      )}
    </>
  )
}

function Entry({ title, item, value, pointer, name }: Omit<Inside, 'field'> & { title: string; item: Field }) {
  const { act, readOnly } = useShown()
  return (
    <div className="inner">
      <div className="titled">
        <span>{title}</span>
        {readOnly === undefined && (
          <button
            type="button"
            className="link small"
            aria-label={`Remove ${name}`}
            onClick={() => act.tryOut([{ op: 'remove', path: pointer }], `${name} removed`)}
          >
            remove
          </button>
        )}
      </div>
      <FieldsOf field={item} value={value} pointer={pointer} name={name} />
    </div>
  )
}
