import { pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { memo, useState } from 'react'
import type { Scene } from './scene.ts'
import { momentAt } from './stand.ts'
import { pieceWords } from './words.ts'

interface InViewOf {
  scene: Scene
  /** The last whole stop: the list changes from step to step. */
  stop: number
  selected: string | undefined
  /** Nothing else shows it: it is open from the first. */
  alone: boolean
  onSelect: (pointer: string) => void
}

/** What the drawing shows, as a list that is read and walked through; without three dimensions it stands in for it. */
export const InView = memo(function InView({ scene, stop, selected, alone, onSelect }: InViewOf) {
  const [opened, setOpen] = useState<boolean>()
  const open = opened ?? alone
  const moment = momentAt(scene, stop)
  const one = (pointer: string, name: string, words = ''): React.ReactNode => (
    <li key={pointer}>
      <button type="button" className="link" aria-pressed={pointer === selected} onClick={() => onSelect(pointer)}>
        {name}
      </button>
      {words !== '' && <span className="small quiet"> {words}</span>}
    </li>
  )
  const fixed = unique(
    scene.items.filter((i) => i.picked && i.layer !== 'machine').map((i) => [i.pointer, i.name] as const),
  )
  return (
    <details className="in-view" open={open} onToggle={(e) => setOpen(e.currentTarget.open)}>
      <summary>What is in view, as a list</summary>
      {open && (
        <div className="lists">
          <h3>Pieces</h3>
          <ul>
            {Object.entries(scene.pieces).map(([id, p]) =>
              one(pointerOf('pieces', id), p.name, `${id}, ${pieceWords(scene, id, moment)}`),
            )}
          </ul>
          <h3>Around them</h3>
          <ul>{fixed.map(([pointer, name]) => one(pointer, name))}</ul>
          <PartsOf scene={scene} selected={selected} one={one} />
        </div>
      )}
    </details>
  )
})

/** Each address once, by the first name it has. */
const unique = (named: readonly (readonly [string, string])[]): [string, string][] =>
  [...new Map([...named].reverse())].reverse()

/** Parts of the piece that is selected; all, where none is. */
function PartsOf({
  scene,
  selected,
  one,
}: {
  scene: Scene
  selected: string | undefined
  one: (pointer: string, name: string, words?: string) => React.ReactNode
}) {
  const piece = Object.entries(scene.pieces).find(([id]) => pointerOf('pieces', id) === selected)
  const own = piece === undefined ? undefined : new Set(piece[1].parts)
  const parts = scene.items.filter((i) => i.layer === 'machine' && (own === undefined || own.has(i.id)))
  return (
    <>
      <h3>{piece === undefined ? 'All parts' : `Parts of ${piece[1].name}`}</h3>
      <ul>{parts.map((i) => one(i.pointer, i.name, i.id))}</ul>
    </>
  )
}
