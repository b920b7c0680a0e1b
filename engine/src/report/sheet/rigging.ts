import { coordinates, poseOfMachine } from '../../model/index.ts'
import { AT_REST, place, type Vec3 } from '../../numeric/vector.ts'
import type { SheetSubject } from './subject.ts'

/** Lifting points by id in the site frame, the piece as found: its own, and those of gear bolted to it. */
export function liftingPoints({ stages, piece, main, tail }: SheetSubject): ReadonlyMap<string, Vec3> {
  const { machine, gear } = stages.model.project
  const pose = machine === undefined ? AT_REST : poseOfMachine(machine)
  const bolted = [main, ...(tail === undefined ? [] : [tail])].flatMap(({ rigging }) => rigging?.gear ?? [])
  const points = [piece.points, ...bolted.map((id) => gear[id]?.points ?? {})].flatMap(Object.entries)
  return new Map(points.map(([id, point]) => [id, place(pose, coordinates(point.at))]))
}
