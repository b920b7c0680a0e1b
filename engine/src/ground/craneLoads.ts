import { placeOf, standingIn } from '../lift/index.ts'
import type { Model, System } from '../model/index.ts'
import type { Point2 } from '../numeric/plan.ts'
import { stated } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { type CraneCase, standingOf } from './crane.ts'
import { type CraneFoot, craneFeet } from './craneFeet.ts'
import { hookPlaces } from './hookPlaces.ts'
import type { HookWay, StandingCrane } from './standingCrane.ts'
import type { GroundLoad, Moment, StepCase } from './step.ts'
import { unplaced } from './unplaced.ts'

/** Between two places of a hook that slews, rad. */
const ARC = Math.PI / 36

/**
 * A crane at work on its feet: loaded, with its hook anywhere from where the piece is taken up to where it is set down, as it
 * presses most on the wall; then the same with its hook empty.
 */
export function craneLoads(c: StepCase, crane: CraneCase, isShared: boolean): GroundLoad[] {
  const { id, system, hook, lift, standing } = crane
  const centre = standingOf(crane)
  if (centre === undefined) return [unplaced(c.model, id, system, pointerOf('lifts', lift, 'standing'))]
  const ways = waysBetween(centre, hookPlaces(c))
  const held = isShared ? ways.map((way): HookWay => ({ ...way, radius: crane.radius })) : ways
  const stands = { id, system, centre, heading: system.headings[standing as number], wall: c.wall }
  const from = [system, standing, c.wall, ...ways.flatMap(identityOf)]
  const loaded = c.memory.once(
    `ground-crane-loaded/${lift}/${id}`,
    [...from, hook, isShared ? crane.radius : undefined],
    () => craneFeet({ ...stands, load: hook, ways: held }, c.memory),
  )
  const empty = c.memory.once(`ground-crane-empty/${lift}/${id}`, from, () =>
    craneFeet({ ...stands, load: undefined, ways }, c.memory),
  )
  return [...footLoads(c.model, id, system, loaded, 'lifting'), ...footLoads(c.model, id, system, empty, 'set down')]
}

const identityOf = ({ bearing, radius }: HookWay) => [bearing, radius.value]

/** Places of the hook as it slews the shorter way, the radius changing evenly. */
function waysBetween(centre: Point2, places: Record<Moment, Point2>): HookWay[] {
  const [a, b] = [polar(places.lifting, centre), polar(places['set down'], centre)]
  const turn = Math.atan2(Math.sin(b.bearing - a.bearing), Math.cos(b.bearing - a.bearing))
  const steps = Math.max(1, Math.ceil(Math.abs(turn) / ARC))
  return Array.from({ length: steps + 1 }, (_, k): HookWay => {
    const share = k / steps
    const radius = a.radius + share * (b.radius - a.radius)
    return {
      bearing: a.bearing + share * turn,
      radius: stated('m', radius, 'from the slewing centre to where the hook is then'),
    }
  })
}

const polar = ([x, y]: Point2, [x0, y0]: Point2): { bearing: number; radius: number } => ({
  bearing: Math.atan2(y - y0, x - x0),
  radius: Math.hypot(x - x0, y - y0),
})

/** A crane that is not at work, where it is parked with its hook empty; over which bearing is not said, over the worst. */
export function parkedCrane(
  model: Model,
  id: string,
  system: System,
  wall: number | undefined,
  memory: Memory,
): GroundLoad[] {
  const centre = placeOf(system, standingIn(system, system.parked?.standing))
  if (centre === undefined) {
    const missing = system.standings.length === 0 ? ['standings'] : ['parked', 'standing']
    return [unplaced(model, id, system, pointerOf('systems', id, ...missing))]
  }
  const feet = memory.once(`ground-parked/${id}`, [system, wall], () =>
    craneFeet(parkedOn(id, system, centre, wall), memory),
  )
  return footLoads(model, id, system, feet, undefined)
}

function parkedOn(id: string, system: System, centre: Point2, wall: number | undefined): StandingCrane {
  const { parked, headings } = system
  const over = parked?.over
  const bearings =
    over === undefined
      ? Array.from({ length: 72 }, (_, i) => i * ARC)
      : [polar([over[0].value as number, over[1].value as number], centre).bearing]
  const radius = stated('m', 0, 'nothing hangs from it')
  const heading = headings[standingIn(system, parked?.standing) as number]
  return { id, system, centre, heading, load: undefined, ways: bearings.map((bearing) => ({ bearing, radius })), wall }
}

/** Feet as loads at one moment, or at both where the crane is parked. */
function footLoads(
  { project }: Model,
  id: string,
  system: System,
  feet: readonly CraneFoot[],
  when: Moment | undefined,
): GroundLoad[] {
  const level = project.ground?.surface.value ?? 0
  return feet.map(({ name, at: [x, y], size, turn, force }) => ({
    id: `${id}/${name.replaceAll(' ', '-')}/${when?.replace(' ', '-') ?? 'parked'}`,
    what: `${name} of ${system.name}`,
    kind: 'crane',
    at: [x, y, level],
    size,
    turn,
    force,
    on: 'ground',
    pointer: pointerOf('systems', id),
    ...(when === undefined ? { stays: true as const, when: ['lifting', 'set down'] } : { when: [when] }),
  }))
}
