import type { Model, Shaft } from '../model/index.ts'
import type { Body } from '../numeric/body.ts'
import { type Cell, cellOf } from '../numeric/cell.ts'
import { IDENTITY, inverse, type Pose } from '../numeric/vector.ts'
import type { Given } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'

/** Something fixed in the shaft that a piece may strike, as a cell in the machine frame as found. */
export interface Obstruction {
  id: string
  cell: Cell
  /** The step before which it is taken out. */
  removedBefore?: string
}

/** The shaft as a piece in it meets it; site frame, m. */
export interface Bore {
  /** Clear radius, less the allowance for the wall. */
  radius: number
  collar: number
  slab: number
  eyes: readonly { centre: number; radius: number; side: 1 | -1 }[]
}

/** Obstructions of the shaft. They hang from the shaft and the pose of the machine. */
export function obstructionsOf({ project }: Model, machine: Pose, memory: Memory): readonly Obstruction[] {
  const { shaft } = project
  if (shaft === undefined) return []
  return memory.once('strip-obstructions', [shaft.obstructions, machine], () =>
    Object.entries(shaft.obstructions).flatMap(([id, obstruction]) => {
      const cell = cellOf(bodyOf(obstruction), inverse(machine))
      const { removedBefore } = obstruction
      return cell === undefined ? [] : [{ id, cell, ...(removedBefore === undefined ? {} : { removedBefore }) }]
    }),
  )
}

const numbers = (span: readonly Given[]): [number, number] => {
  const [a, b] = span.map((s) => s.value as number) as [number, number]
  return [Math.min(a, b), Math.max(a, b)]
}

/** A round one is a cylinder as wide as the wider side of its plan. */
function bodyOf({ x, y, z, round }: Shaft['obstructions'][string]): Body {
  const [[x0, x1], [y0, y1], [z0, z1]] = [numbers(x), numbers(y), numbers(z)]
  const [cx, cy] = [(x0 + x1) / 2, (y0 + y1) / 2]
  if (round) {
    const radius = Math.max(x1 - x0, y1 - y0) / 2
    return { kind: 'frustum', from: [cx, cy, z0], to: [cx, cy, z1], radii: [radius, radius] }
  }
  const half = [(x1 - x0) / 2, (y1 - y0) / 2, (z1 - z0) / 2] as const
  return { kind: 'box', centre: [cx, cy, (z0 + z1) / 2], half, turn: IDENTITY }
}

/** The bore of the shaft; undefined when the file has no shaft. */
export function boreOf({ shaft }: Model['project']): Bore | undefined {
  if (shaft === undefined) return undefined
  const value = (input: Given): number => input.value as number
  return {
    radius: value(shaft.clearDiameter) / 2 - (shaft.wall.innerTolerance?.value ?? 0),
    collar: value(shaft.collar),
    slab: value(shaft.slabTop),
    eyes: Object.values(shaft.eyes).map(({ centre, diameter, side }) => ({
      centre: value(centre),
      radius: value(diameter) / 2,
      side: side === '+x' ? 1 : -1,
    })),
  }
}
