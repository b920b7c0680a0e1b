import type { Verdict } from '@shieldwright/engine/working/check.ts'
import { Scroll } from '../parts/scroll.tsx'
import { useSelected } from '../shared.ts'

/** Verdicts, the worst first. */
export const WORST_FIRST: readonly Verdict[] = ['fail', 'open', 'near', 'pass']

/** A heading of a column: of figures, or one that only those who hear the page are told. */
export type Heading = string | { words: string; of: 'figures' | 'unseen' }

interface RowsProps {
  title: string
  /** What the table says, for those who hear it. */
  caption: string
  note?: string
  heads: readonly Heading[]
  children: React.ReactNode
}

/** A table under a title; wider than its place it scrolls by itself. */
export function Rows({ title, caption, note, heads, children }: RowsProps) {
  return (
    <section>
      {note === undefined ? (
        <h2>{title}</h2>
      ) : (
        <div className="titled">
          <h2>{title}</h2>
          <span className="small quiet">{note}</span>
        </div>
      )}
      <Scroll name={title}>
        <table>
          <caption className="unseen">{caption}</caption>
          <thead>
            <tr>{heads.map(headCell)}</tr>
          </thead>
          <tbody>{children}</tbody>
        </table>
      </Scroll>
    </section>
  )
}

function headCell(head: Heading) {
  if (typeof head === 'string')
    return (
      <th key={head} scope="col">
        {head}
      </th>
    )
  return (
    <th key={head.words} scope="col" className={head.of === 'figures' ? 'num' : undefined}>
      {head.of === 'unseen' ? <span className="unseen">{head.words}</span> : head.words}
    </th>
  )
}

interface PickedRowProps {
  isChosen: boolean
  /** What is pressed to choose it. */
  pick: React.ReactNode
  /** A cell before the one that is pressed. */
  before?: React.ReactNode
  /** Said under the name. */
  under?: React.ReactNode
  children: React.ReactNode
}

/** A row that is chosen by its name and stands out while it is. */
export function PickedRow({ isChosen, pick, before, under, children }: PickedRowProps) {
  return (
    <tr className={isChosen ? 'chosen' : undefined}>
      {before}
      <th scope="row">
        {pick}
        {under !== undefined && <div className="small quiet">{under}</div>}
      </th>
      {children}
    </tr>
  )
}

interface PickProps {
  isPressed: boolean
  onPress: () => void
  label?: string
  children: React.ReactNode
}

/** A name that is pressed, and stays pressed while the thing is chosen. */
export function Pick({ isPressed, onPress, label, children }: PickProps) {
  return (
    <button type="button" className="link" aria-pressed={isPressed} aria-label={label} onClick={onPress}>
      <bdi>{children}</bdi>
    </button>
  )
}

/** Whether a thing of the file is the selected one, and what selects it or lets it go. */
export function useChosen(pointer: string): { isChosen: boolean; toggle: () => void } {
  const { selected, set } = useSelected()
  const isChosen = selected === pointer
  return { isChosen, toggle: () => set({ selected: isChosen ? undefined : pointer }) }
}
