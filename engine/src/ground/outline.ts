import type { MassResult, SetMass } from '../mass/index.ts'
import { type Model, poseInSite } from '../model/index.ts'
import { supportOf } from '../numeric/body.ts'
import { kernReach, type Point2, polygonAround, type Section, sectionOf } from '../numeric/plan.ts'
import { apply, dot, type Mat3, multiply, transpose, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'

/** Hull of parts seen from above, as they are turned; shapes only, masses do not touch it. */
export interface Outline {
  corners: readonly Point2[]
  section: Section
  /** Along site x and y. */
  size: Point2
  /** Inputs that the shapes rest on. */
  inputs: Readonly<Record<string, Answer>>
}

/** Sides of the polygon around an outline: a disc comes out 0.04 % too large. */
const SIDES = 96

/**
 * Plan outline of parts after turning them from the pose as found.
 *
 * @param turned rotation that took them there, site axes
 */
export function outlineOf(
  model: Model,
  mass: MassResult,
  parts: readonly string[],
  turned: Mat3,
  memory: Memory,
): Outline | undefined {
  const { machine } = model.project
  if (machine === undefined || parts.length === 0) return undefined
  const shapes = parts.map((id) => {
    const instance = model.instances.byId.get(id)
    if (instance === undefined) throw new Error(`no part "${id}" in this model`)
    const shape = mass.parts[instance.entry]?.shape
    if (shape === undefined) throw new Error(`no shape of "${instance.entry}"`)
    return { instance, shape }
  })
  const keys = shapes.flatMap(({ instance, shape }) => [shape, instance.turn, ...instance.shift])
  return memory.once(`ground-outline/${parts.join()}`, [machine.pose, ...turned.flat(), ...keys], () => {
    const placed = shapes.map(({ instance, shape }) => {
      const { turn, shift } = poseInSite(machine, instance)
      return { back: transpose(multiply(turned, turn)), shift: apply(turned, shift), bodies: shape.bodies }
    })
    const support = (direction: Vec3) =>
      placed.reduce((most, { back, shift, bodies }) => {
        const own = apply(back, direction)
        const offset = dot(shift, direction)
        return bodies.reduce((m, b) => Math.max(m, offset + supportOf(b, own)), most)
      }, Number.NEGATIVE_INFINITY)
    const leaves = shapes.flatMap(({ shape }) => shape.solids.flatMap((s) => s.leaves))
    return hull(support, Object.fromEntries(leaves.map((leaf) => [leaf.pointer, leaf])))
  })
}

function hull(support: (direction: Vec3) => number, inputs: Outline['inputs']): Outline {
  const corners = polygonAround(([x, y]) => support([x, y, 0]), SIDES)
  const width = (x: number, y: number) => support([x, y, 0]) + support([-x, -y, 0])
  return { corners, section: sectionOf(corners), size: [width(1, 0), width(0, 1)], inputs }
}

/** How a set bears on its outline: area, centre of gravity off the middle, reach of the kern that way. */
export interface Bearing {
  area: Answer<'m2'>
  offset: Answer<'m'>
  kern: Answer<'m'>
}

/** Bearing of a set over its outline, both turned alike from the pose as found. Frame: site. */
export function bearingOf({ corners, section, inputs }: Outline, set: SetMass, turned: Mat3): Bearing {
  const cog = apply(turned, set.cogSite)
  const off: Point2 = [cog[0] - section.centroid[0], cog[1] - section.centroid[1]]
  const distance = Math.hypot(...off)
  const way: Point2 = distance === 0 ? [1, 0] : [off[0] / distance, off[1] / distance]
  const [x, y, z] = set.cogSiteWorking
  const withCog = { ...inputs, 'centre of gravity x': x, 'centre of gravity y': y, 'centre of gravity z': z }
  return {
    area: found({ unit: 'm2', value: section.area, method: HULL, inputs, residuals: [shoelace(corners, section)] }),
    offset: found({
      unit: 'm',
      value: distance,
      method: 'centre of gravity from the middle of the plan outline',
      inputs: withCog,
      residuals: [],
    }),
    kern: found({
      unit: 'm',
      value: kernReach(corners, section, way),
      method: 'reach of the kern of the plan outline towards the centre of gravity',
      inputs: withCog,
      residuals: [],
    }),
  }
}

const HULL = `area of the convex hull of the plan outline, a polygon of ${SIDES} sides that touches it`

/** The area again, as triangles from the middle. */
function shoelace(corners: readonly Point2[], { area, centroid: [cx, cy] }: Section) {
  const triangles = corners.reduce((sum, [ax, ay], i) => {
    const [bx, by] = corners[(i + 1) % corners.length] as Point2
    return sum + ((ax - cx) * (by - cy) - (bx - cx) * (ay - cy)) / 2
  }, 0)
  return {
    title: 'triangles from the middle less the area',
    value: triangles - area,
    unit: 'm2' as const,
    tolerance: 1e-9 * Math.max(area, 1),
  }
}
