import { at, pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { readQuantity, showNumber, type UnitSystem } from '@shieldwright/engine/working/quantity.ts'

/** A place on the site: x along the drive, y to the left, m. */
export type Place = readonly [number, number]

/** What can be moved on the plan: a bay, or where a crane stands with its hook. */
export interface Movable {
  /** Address of the place that is moved, and of the entity it is of. */
  pointer: string
  of: string
  name: string
  at: Place
  /** Along x and y, m; a standing has none. */
  size: Place | undefined
}

const FOOT = 0.3048

/** Grids to snap to, m: multiples from the shaft's centre. */
export const gridsOf = (system: UnitSystem): readonly number[] =>
  system === 'US' ? [1 * FOOT, 0.5 * FOOT, 2 * FOOT, 5 * FOOT] : [0.5, 0.1, 1, 5]

const unitOf = (system: UnitSystem): { per: number; label: string } =>
  system === 'US' ? { per: FOOT, label: 'ft' } : { per: 1, label: 'm' }

export function gridText(grid: number, system: UnitSystem): string {
  const { per, label } = unitOf(system)
  return `${Number((grid / per).toFixed(3))} ${label}`
}

/** A coordinate as it is written into the file: no digits that the grid does not have. */
export function coordinateText(value: number, system: UnitSystem): string {
  const { per, label } = unitOf(system)
  return `${Number((value / per).toFixed(4)) + 0} ${label}`
}

/** A coordinate as it is read: signed, with the decimals of a plan. */
export function shownCoordinate(value: number, system: UnitSystem): string {
  const { per, label } = unitOf(system)
  return `${showNumber(value / per, 2)} ${label}`
}

/** Bays and standings of a project file as it is typed; what has no readable place cannot be moved. */
export function movablesOf(document: unknown): Movable[] {
  const bays = Object.entries((at(document, '/bays') ?? {}) as object).flatMap(([id, bay]) => {
    const of = pointerOf('bays', id)
    const name = at(bay, '/name')
    return movableAt(document, { pointer: `${of}/centre`, of, name: typeof name === 'string' ? name : `bay ${id}` }, of)
  })
  const standings = Object.entries((at(document, '/systems') ?? {}) as object).flatMap(([id, system]) => {
    const places = at(system, '/standings')
    if (!Array.isArray(places)) return []
    const of = pointerOf('systems', id)
    return places.flatMap((_, i) =>
      movableAt(document, { pointer: `${of}/standings/${i}`, of, name: `${id}, standing ${i + 1}` }),
    )
  })
  return [...bays, ...standings]
}

function movableAt(document: unknown, about: Pick<Movable, 'pointer' | 'of' | 'name'>, bay?: string): Movable[] {
  const place = placeAt(document, about.pointer)
  if (place === undefined) return []
  return [{ ...about, at: place, size: bay === undefined ? undefined : placeAt(document, `${bay}/size`) }]
}

function placeAt(document: unknown, pointer: string): Place | undefined {
  const typed = at(document, pointer)
  if (!Array.isArray(typed)) return undefined
  const [x, y] = typed.slice(0, 2).map((text) => (typeof text === 'string' ? readQuantity(text, 'm') : undefined))
  return typeof x === 'number' && typeof y === 'number' ? [x, y] : undefined
}

/** The nearest place of the grid; a direction that was hardly moved in keeps what it was. */
export function snapped(from: Place, to: Place, grid: number): Place {
  const of = (was: number, now: number): number =>
    Math.abs(now - was) < grid / 2 ? was : Math.round(now / grid) * grid
  return [of(from[0], to[0]), of(from[1], to[1])]
}

/** The next line of the grid that way. */
export function stepped(from: Place, by: Place, grid: number): Place {
  const of = (was: number, lines: number): number => {
    if (lines === 0) return was
    const near = was / grid
    const line = lines > 0 ? Math.floor(near + 1e-6) : Math.ceil(near - 1e-6)
    return (line + lines) * grid
  }
  return [of(from[0], by[0]), of(from[1], by[1])]
}

/** What is written at a place: a direction that did not move keeps its text. */
export function typedPlace(document: unknown, pointer: string, to: Place, system: UnitSystem): unknown[] {
  const typed = at(document, pointer) as unknown[]
  const was = placeAt(document, pointer)
  return typed.map((text, i) => {
    const now = to[i]
    return now === undefined || Math.abs(now - (was?.[i] ?? Number.NaN)) < 1e-6 ? text : coordinateText(now, system)
  })
}
