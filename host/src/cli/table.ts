/** A column of a table: its heading and how its cells stand under each other. */
export interface Column {
  title: string
  /** `decimal`: points under each other, whatever the units behind them. */
  align?: 'left' | 'decimal'
}

const GAP = '  '

/**
 * A plain table: heading, rule, rows.
 *
 * @param rows cells as text, one for each column
 * @returns lines ending in a newline; nothing for no rows
 */
export function table(columns: readonly Column[], rows: readonly (readonly string[])[]): string {
  if (rows.length === 0) return ''
  const cells = columns.map((column, i) =>
    aligned(
      column,
      rows.map((row) => row[i] ?? ''),
    ),
  )
  const widths = columns.map(({ title }, i) => Math.max(width(title), ...(cells[i] as string[]).map(width)))
  const line = (of: (i: number) => string): string =>
    columns
      .map((_, i) => padded(of(i), widths[i] as number))
      .join(GAP)
      .trimEnd()
  const head = line((i) => (columns[i] as Column).title)
  const rule = line((i) => '─'.repeat(widths[i] as number))
  return `${[head, rule, ...rows.map((_, r) => line((i) => cells[i]?.[r] as string))].join('\n')}\n`
}

function aligned({ align }: Column, texts: readonly string[]): string[] {
  if (align !== 'decimal') return [...texts]
  const points = texts.map(pointAt)
  const most = Math.max(...points)
  return texts.map((text, i) => ' '.repeat(most - (points[i] as number)) + text)
}

/** Place of the decimal point in "−1 234.5 t", or where it would stand in "412 kg"; the length of a text without number. */
function pointAt(text: string): number {
  const number = /^[+\-−]?[\d\u202f]+/.exec(text)
  return number === null ? width(text) : width(number[0])
}

/** Characters as a terminal counts them; no combining ones occur in what is printed here. */
const width = (text: string): number => [...text].length

const padded = (text: string, to: number): string => text + ' '.repeat(Math.max(0, to - width(text)))
