import { at, pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { ValueField } from '../edit/valueField.tsx'
import type { LiftView } from '../engine/protocol.ts'
import { Scroll } from '../parts/scroll.tsx'
import { useShown } from '../state.ts'

/** What was decided about a lift: each is changed in place, and shows its consequences before it is kept. */
export function Decisions({ lift }: { lift: LiftView }) {
  const { document } = useShown()
  const own = (...below: string[]): string => pointerOf('lifts', lift.id, ...below)
  const turns = at(document, own('turn')) !== undefined
  const isOnPivot = at(document, own('turn', 'pivot')) !== undefined
  const rows: readonly (readonly [label: string, pointer: string])[] = [
    ['Lifting system', own('system')],
    ['Hook', own('hook')],
    ['Carries the mass', own('as')],
    ['Set down on bay', own('bay')],
    ['Must clear, level', own('over')],
    ['Largest radius', own('radius')],
    ['Stops at a gust of', own('stopWind')],
    ['Drag of the piece', own('drag')],
    ...(turns
      ? ([
          ['Turn from', own('turn', 'from')],
          ['Turn to', own('turn', 'to')],
          ['Hooks apart', own('turn', 'hooksApart')],
        ] as const)
      : []),
    ...(isOnPivot
      ? ([
          ['Edge of the pivot that bears', own('turn', 'pivot', 'edge')],
          ['Pivot over the bay, on its stand', own('turn', 'pivot', 'height')],
          ['Friction at the pivot', own('turn', 'pivot', 'friction')],
          ['Stop at the pivot, may take', own('turn', 'pivot', 'stop')],
        ] as const)
      : []),
    ['Retained matter', pointerOf('pieces', lift.piece, 'retained')],
    ['Goes back with it', pointerOf('pieces', lift.piece, 'retainedBack')],
  ]
  return (
    <section>
      <div className="titled">
        <h2>Decided for this lift</h2>
        <span className="small quiet">
          press a value to change it · <kbd>↵</kbd> preview
        </span>
      </div>
      <table className="decisions">
        <caption className="unseen">Decided for {lift.name}</caption>
        <tbody>
          {rows.map(([label, pointer]) => (
            <Decision key={pointer} label={label} pointer={pointer} of={lift.name} />
          ))}
          <Allowance of={lift.name} />
        </tbody>
      </table>
      <Rigging lift={lift} side="rigging" title="Rigging, main hook" />
      <Rigging lift={lift} side="tail" title="Rigging, tail hook" />
    </section>
  )
}

function Decision({ label, pointer, of }: { label: string; pointer: string; of: string }) {
  return (
    <tr>
      <th scope="row" className="what">
        {label}
      </th>
      <td>
        <ValueField pointer={pointer} name={`${of}, ${label.toLowerCase()}`} />
      </td>
    </tr>
  )
}

/** Contingency on a mass by how it is known: a rule of the project, so a change reaches every lift. */
function Allowance({ of }: { of: string }) {
  const { document } = useShown()
  const allowance = at(document, '/settings/allowance')
  if (typeof allowance !== 'object' || allowance === null) return null
  return Object.keys(allowance).map((basis) => (
    <Decision
      key={basis}
      label={`Allowance, ${basis} (all lifts)`}
      pointer={pointerOf('settings', 'allowance', basis)}
      of={of}
    />
  ))
}

interface RiggingProps {
  lift: LiftView
  side: 'rigging' | 'tail'
  title: string
}

function Rigging({ lift, side, title }: RiggingProps) {
  const { document } = useShown()
  const base = side === 'tail' ? ['lifts', lift.id, 'tail', 'rigging'] : ['lifts', lift.id, 'rigging']
  const legs = at(document, pointerOf(...base, 'legs'))
  const others = at(document, pointerOf(...base, 'others'))
  if (!Array.isArray(legs)) return null
  const cell = (label: string, ...below: string[]) => (
    <ValueField pointer={pointerOf(...base, ...below)} name={`${lift.name}, ${label}`} />
  )
  return (
    <details className="rigging">
      <summary>
        {title}: {legs.length} legs
      </summary>
      <Scroll name={title}>
        <table>
          <caption className="unseen">{title}</caption>
          <thead>
            <tr>
              <th scope="col">Leg</th>
              <th scope="col">Item</th>
              <th scope="col">To</th>
              <th scope="col">From</th>
              <th scope="col">Level link</th>
            </tr>
          </thead>
          <tbody>
            {legs.map((_, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a leg is known by its place
              <tr key={i}>
                <th scope="row">{i + 1}</th>
                {['item', 'to', 'from', 'link'].map((field) => (
                  <td key={field}>{cell(`leg ${i + 1}, ${field}`, 'legs', String(i), field)}</td>
                ))}
              </tr>
            ))}
            {(Array.isArray(others) ? others : []).map((_, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: an item is known by its place
              <tr key={`other-${i}`}>
                <th scope="row">besides</th>
                <td>{cell(`besides ${i + 1}, item`, 'others', String(i), 'item')}</td>
                <td colSpan={3}>× {cell(`besides ${i + 1}, count`, 'others', String(i), 'count')}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      <p className="small">Gear: {cell('gear', 'gear')}</p>
    </details>
  )
}
