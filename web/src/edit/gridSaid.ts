import type { RefusedCell, Trial } from '../state.ts'

/** Refused cells by the row that they stand in. */
export function refusedByRow(
  cells: ReadonlyMap<string, RefusedCell>,
  collection: string,
): Map<string, [string, RefusedCell][]> {
  return byRow(
    [...cells],
    collection,
    ([pointer]) => pointer,
    ([, cell], below): [string, RefusedCell] => [below, cell],
  )
}

/** Cells that the trial finds wrong, by the row that they stand in. */
export function wrongByRow(trial: Trial | undefined, collection: string): Map<string, string[]> {
  return byRow(
    trial?.preview.problems ?? [],
    collection,
    (p) => p.pointer,
    (_, below) => below,
  )
}

function byRow<T, R>(
  all: readonly T[],
  collection: string,
  pointerOfOne: (one: T) => string,
  made: (one: T, below: string) => R,
): Map<string, R[]> {
  const rows = new Map<string, R[]>()
  for (const one of all) {
    const pointer = pointerOfOne(one)
    if (!pointer.startsWith(`${collection}/`)) continue
    const end = pointer.indexOf('/', collection.length + 1)
    const row = end < 0 ? pointer : pointer.slice(0, end)
    rows.set(row, [...(rows.get(row) ?? []), made(one, pointer.slice(row.length))])
  }
  return rows
}
