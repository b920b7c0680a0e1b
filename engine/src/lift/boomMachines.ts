import type { Model, System } from '../model/index.ts'
import { AT_REST, type Pose, type Vec3 } from '../numeric/vector.ts'
import { type Answer, given, knownOr, stated } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { boomAngle } from './boom.formulas.ts'
import { type Boom, lineOf, outOfReach } from './boom.ts'
import { type Beside, type Shape, still, TALL } from './boomBeside.ts'
import { boomAngleAt, boomAnswersOf, boomAt } from './boomFigures.ts'
import type { BoomWay } from './boomWay.ts'
import { type HookOver, hookOver } from './hookCourse.ts'
import { machinesOf } from './machines.ts'
import type { Hooked, Pick } from './pick.ts'
import { isCrane, placeOf, standingIn } from './swept.ts'

/** The other machines of the site beside a crane's boom: those that share the lift where they are with it, the rest where they are parked. */
export function besideMachines({ project }: Model, pick: Pick, own: BoomWay, ways: readonly BoomWay[]): Beside[] {
  const shared = machinesOf(pick).filter(({ systemId }) => systemId !== own.hooked.systemId)
  const carrying = new Set([own.hooked.systemId, ...shared.map(({ systemId }) => systemId)])
  const parked = Object.entries(project.systems).filter(
    ([id, { parked }]) => !carrying.has(id) && parked?.away !== true,
  )
  return [
    ...shared.flatMap((hooked) => sharedMachine(pick, hooked, ways)),
    ...parked.flatMap(([id, system]) => parkedMachine(id, system)),
  ]
}

function sharedMachine(pick: Pick, hooked: Hooked, ways: readonly BoomWay[]): Beside[] {
  const { system, systemId } = hooked
  const over = hookOver(pick, hooked)
  if (!isCrane(system)) return towerBeside(systemId, system, (pose) => over(pose)[1])
  const way = ways.find((one) => one.hooked.systemId === systemId)
  const { boom, answers } = way?.figures ?? { boom: undefined, answers: {} }
  const unknown = unknownOf(answers)
  if (boom === undefined || way === undefined) return [still(`boom of ${system.name}`, undefined, unknown)]
  const beyond = outOfReach(boom, way.moments)
  if (beyond !== undefined)
    return [still(`boom of ${system.name}`, undefined, { 'its angle': boomAngleAt(pick, hooked, beyond.radius) })]
  const hook = way.hooks[0]?.hookOver ?? over
  return [
    ...bodyOf(systemId, system, boom.centre),
    { name: `boom of ${system.name}`, unknown: {}, at: (pose) => boomShape(boom, pose, hook(pose)) },
    hoistLine(hooked, hook),
  ]
}

/** What hangs from the head of another crane down to its points, as thick as its block; as high as can be where its head is not known. */
function hoistLine({ hook, hookAt, system }: Hooked, over: HookOver): Beside {
  const head = hook.head ?? hook.highest
  const width = knownOr(hook.blockSize?.width, 'm', `${hookAt}/blockSize/width`)
  return {
    name: `hoist line of ${system.name}`,
    unknown: unknownOf({ 'width of its block': width, 'its head': knownOr(head, 'm', `${hookAt}/head`) }),
    at: (pose) => {
      const [x, y, z] = over(pose)
      const top: Vec3 = [x, y, Math.max(z, head?.value ?? TALL)]
      return { line: [[x, y, z], top], half: (width.value ?? 0) / 2 }
    },
  }
}

/** A boom as a round line; where it does not reach its hook nothing bounds it, which its own check says. */
function boomShape(boom: Boom, pose: Pose, hook: Vec3): Shape | undefined {
  const radius = Math.hypot(hook[0] - boom.centre[0], hook[1] - boom.centre[1])
  const moment = { stage: 0, share: 0, pose, hook, radius }
  if (outOfReach(boom, [moment]) !== undefined) return undefined
  return { line: lineOf(boom, moment), half: Math.hypot(boom.depth, boom.width) / 2 }
}

function parkedMachine(id: string, system: System): Beside[] {
  const { kind, parked } = system
  if (kind === 'hoist') return []
  if (!isCrane(system)) return towerBeside(id, system, parked?.along?.value)
  const standing = standingIn(system, parked?.standing)
  const centre = placeOf(system, standing)
  const [boom, unknown] = parkedBoom(id, system, centre)
  const name = `${system.name}, parked`
  const over = parked?.over?.map(({ value }) => value as number)
  if (boom !== undefined && over !== undefined && centre !== undefined) {
    const [x, y] = over as [number, number]
    const line = boomShape(boom, AT_REST, [x, y, 0])
    return [
      ...bodyOf(id, system, centre),
      still(
        `boom of ${name}`,
        line,
        line === undefined ? { 'its angle': angleParked(id, system, centre, [x, y]) } : {},
      ),
    ]
  }
  const reach = reachOf(system)
  const places = centre === undefined ? system.standings.map((_, i) => placeOf(system, i)) : [centre]
  if (reach === undefined || places.length === 0) return [still(name, undefined, unknown)]
  return places.map((at) => still(name, at === undefined ? undefined : upright(at, reach), unknown))
}

function angleParked(
  id: string,
  system: System,
  [x0, y0]: readonly [number, number],
  [x, y]: readonly [number, number],
): Answer<'rad'> {
  const at = pointerOf('systems', id)
  const { ahead, length } = boomAnswersOf(system, at, system.setUp?.boom)
  const r = stated('m', Math.hypot(x - x0, y - y0), `from where it stands to ${at}/parked/over`)
  return boomAngle.show({ r, a: ahead, L: length })
}

/** The boom of a parked crane, and what keeps it from being known. */
function parkedBoom(
  id: string,
  system: System,
  centre: readonly [number, number] | undefined,
): [Boom | undefined, Record<string, Answer>] {
  const at = pointerOf('systems', id)
  const answers = boomAnswersOf(system, at, system.setUp?.boom)
  const unknown = unknownOf({
    ...(centre === undefined ? { 'where it stands, parked': given('1', `${at}/parked/standing`, undefined) } : {}),
    ...(system.parked?.over === undefined
      ? { 'where its hook rests': given('m', `${at}/parked/over`, undefined) }
      : {}),
    ...Object.fromEntries(Object.entries(answers).map(([field, answer]) => [`${field} of its boom`, answer])),
  })
  return [boomAt(centre, answers), unknown]
}

const unknownOf = (answers: Readonly<Record<string, Answer>>): Record<string, Answer> =>
  Object.fromEntries(Object.entries(answers).filter(([, { value }]) => value === undefined))

/** Farthest that any part of a crane comes from where it stands, m. */
function reachOf({ setUp, boom, tailRadius }: System): number | undefined {
  if (setUp?.boom?.value === undefined) return undefined
  const head = (boom?.ahead?.value ?? 0) + setUp.boom.value + (boom?.depth?.value ?? 0)
  return Math.max(head, tailRadius?.value ?? 0)
}

const upright = ([x, y]: readonly [number, number], half: number): Shape => ({
  line: [
    [x, y, -TALL],
    [x, y, TALL],
  ],
  half,
})

/** A crane without its boom: what its counterweight sweeps, all the way up. */
function bodyOf(id: string, { name, tailRadius }: System, centre: readonly [number, number]): Beside[] {
  const unknown = {
    'what its counterweight sweeps': knownOr(tailRadius, 'm', `${pointerOf('systems', id)}/tailRadius`),
  }
  const isKnown = tailRadius !== undefined
  return [
    still(
      `counterweight of ${name}`,
      isKnown ? upright(centre, tailRadius.value as number) : undefined,
      isKnown ? {} : unknown,
    ),
  ]
}

/** A tower or gantry: all between its rails, all the way up, as far along as its legs stand apart. */
function towerBeside(id: string, system: System, hookAlong: number | ((pose: Pose) => number) | undefined): Beside[] {
  const { name, legs, rails, runway, legWidth } = system
  const at = pointerOf('systems', id)
  const half = (legWidth?.value ?? 0) / 2
  const across = [
    ...Object.values(legs).map(({ x }) => x.value as number),
    ...(rails ?? []).map((r) => r.value as number),
  ]
  const offsets = Object.values(legs).map(({ offset }) => Math.abs(offset.value as number))
  if (across.length === 0) return [still(name, undefined, { 'its legs': given('m', `${at}/legs`, undefined) })]
  const deep = Math.max(0, ...offsets) + half
  const box = (from: number, to: number): Shape => ({
    box: { low: [Math.min(...across) - half, from - deep, -TALL], high: [Math.max(...across) + half, to + deep, TALL] },
    heading: 0,
  })
  if (typeof hookAlong === 'function')
    return [{ name, unknown: {}, at: (pose) => box(hookAlong(pose), hookAlong(pose)) }]
  if (hookAlong !== undefined) return [still(name, box(hookAlong, hookAlong))]
  const unknown = { 'where it is parked': given('m', `${at}/parked/along`, undefined) }
  if (runway === undefined) return [still(name, undefined, unknown)]
  return [still(name, box(...(runway.map((r) => r.value as number) as [number, number])), unknown)]
}
