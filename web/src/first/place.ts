/** A text that belongs to a place on a ruler. */
export interface Label {
  key: string
  text: string
  x: number
  /** Rows it may stand in, the best first. */
  rows: readonly number[]
  className?: string
  /** Begins at its place, never before it. */
  beside?: boolean
}

export interface Placed extends Label {
  row: number
  /** Left end of the text. */
  left: number
}

const GAP = 8

/**
 * Labels in their order of weight, each where it covers no other: centred on its place, or beside it, in the first row that
 * has room. One that finds no room is left out: its figure stands elsewhere.
 */
export function placed(labels: readonly Label[], width: number, measure: (text: string) => number): Placed[] {
  const done: { row: number; from: number; to: number }[] = []
  return labels.flatMap((label): Placed[] => {
    const w = measure(label.text)
    for (const row of label.rows) {
      for (const left of label.beside ? [label.x + 4] : [label.x - w / 2, label.x + 4, label.x - w - 4]) {
        const isFree = done.every((d) => d.row !== row || left > d.to + GAP || left + w < d.from - GAP)
        if (left < 0 || left + w > width || !isFree) continue
        done.push({ row, from: left, to: left + w })
        return [{ ...label, row, left }]
      }
    }
    return []
  })
}
