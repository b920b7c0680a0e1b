import { type Arrangement, coordinates, type StockItem } from '../model/index.ts'
import { add, apply, type Mat3, scale, type Vec3 } from '../numeric/vector.ts'
import { type Answer, GRAVITY, given, knownOr, stated, sumOf, type Term } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { weightOf } from './hook.formulas.ts'
import { boltedGear, gearOf, pieceLines, riggingLines } from './hook.ts'
import { bodyTurn } from './path.ts'
import type { Hooked, Pick } from './pick.ts'
import { legLength, legStiffness, stiffnessInSeries, stiffnessWithRigid } from './rig.formulas.ts'

/** A point that something hangs by, with where it stands in the file. */
export interface HangingPoint {
  id: string
  pointer: string
  /** Machine frame, as installed. */
  at: Vec3
  point: Pick['piece']['points'][string]
}

/** One leg of an arrangement, resolved. */
export interface RigLeg {
  id: string
  pointer: string
  itemId: string
  item: StockItem | undefined
  linkId?: string
  link?: StockItem | undefined
  parts: number
  /** The point of the piece or gear at its lower end; a leg above the spreader has a node there instead. */
  lower: HangingPoint | undefined
  node: string | undefined
  above: boolean
  /** Of a leg above a spreader: the node of the spreader over it; absent, the hook. */
  over?: string
  /** How it is laid, and what stands in line with it. */
  laid: Arrangement['legs'][number]
  length: Answer<'m'>
  stiffness: Answer<'N'>
  tolerance: Answer<'1'>
}

/** An arrangement, resolved: what hangs from what, in the body frame (site axes of the piece as it is meant to hang). */
export interface Rig {
  hooked: Hooked
  legs: readonly RigLeg[]
  /** Machine frame to body frame. */
  turn: Mat3
  /** Load on the legs below any spreader: everything under the hook but the spreader. */
  weight: Answer<'N'>
  lowerWeight: Answer<'N'>
  /** Centre of gravity of the piece with the gear bolted to it, machine frame. */
  cogMachine: Vec3
  /** Ends of the spreader from the hook, body frame. */
  nodes: Readonly<Record<string, Vec3>>
  spreaderWeight: Answer<'N'>
  /** What cannot be resolved: addresses that are open. */
  missing: Readonly<Record<string, Answer>>
}

/** The main hook's arrangement, for a piece that hangs from it alone. */
export function rigOf(pick: Pick): Rig {
  const { main } = pick
  const arrangement = main.rigging
  const spreaders = new Set(Object.values(arrangement?.nodes ?? {}).map((n) => n.gear))
  const legs = (arrangement?.legs ?? []).map((_, i) => legOf(pick, main, i))
  return {
    hooked: main,
    legs,
    turn: bodyTurn(pick),
    weight: weightBelow(pick, spreaders, pieceLines(pick)),
    lowerWeight: weightBelow(pick, spreaders, [{ label: 'lower mass of the piece', answer: pick.set.lower }]),
    cogMachine: cogWithGear(pick),
    nodes: Object.fromEntries(
      Object.entries(arrangement?.nodes ?? {}).map(([id, node]) => [id, coordinates(node.offset)]),
    ),
    spreaderWeight: massesWeight(
      [...spreaders].map((id) => ({
        label: id,
        answer: knownOr(pick.gear[id]?.mass, 'kg', pointerOf('gear', id, 'mass')),
      })),
      'Mass of the spreader',
    ),
    missing: missingIn(main, legs),
  }
}

/** One leg of an arrangement, with its item, its ends and its figures. */
export function legOf(pick: Pick, hooked: Hooked, index: number): RigLeg {
  const leg = (hooked.rigging as NonNullable<Hooked['rigging']>).legs[index] as NonNullable<
    Hooked['rigging']
  >['legs'][number]
  const item = pick.stock[leg.item]
  const itemAt = (field: string): string => pointerOf('stock', leg.item, field)
  const p = stated('1', leg.parts, 'falls side by side in the arrangement')
  const above = hooked.rigging?.nodes[leg.to] !== undefined
  const fittings = leg.fittings.flatMap((id) => {
    const own = pick.stock[id]?.length
    return own === undefined ? [] : [{ label: pick.stock[id]?.name ?? id, answer: own }]
  })
  const link = leg.link === undefined ? {} : { linkId: leg.link, link: pick.stock[leg.link] }
  return {
    id: `leg ${index + 1}`,
    pointer: `${hooked.riggingAt}/legs/${index}`,
    itemId: leg.item,
    item,
    ...link,
    parts: leg.parts,
    lower: above ? undefined : pointNamed(pick, leg.to),
    node: above ? leg.to : leg.from,
    above,
    ...(above && leg.from !== undefined ? { over: leg.from } : {}),
    laid: leg,
    length: lengthOf(
      legLength.show({ l: knownOr(item?.length, 'm', itemAt('length')), p }),
      leg.link === undefined ? undefined : pick.stock[leg.link]?.length,
      fittings,
    ),
    stiffness: withFittings(pick, leg, p),
    tolerance: knownOr(item?.tolerance, '1', itemAt('tolerance')),
  }
}

/** With its level link closed and its fittings, where these have a length of their own. */
function lengthOf(sling: Answer<'m'>, link: Answer<'m'> | undefined, fittings: readonly Term<'m'>[]): Answer<'m'> {
  const links = link === undefined ? [] : [{ label: 'link, closed', answer: link }]
  if (links.length + fittings.length === 0) return sling
  return sumOf(
    fittings.length === 0 ? 'Length of the leg with its link closed' : 'Length of the leg with what is in line with it',
    'm',
    [{ label: 'sling', answer: sling }, ...links, ...fittings],
  )
}

/** EA of the sling with its fittings in series: those whose give is not known are taken for rigid. */
function withFittings({ stock }: Pick, leg: Arrangement['legs'][number], p: Answer<'1'>): Answer<'N'> {
  const item = stock[leg.item]
  const itemAt = (field: string): string => pointerOf('stock', leg.item, field)
  const sling = legLength.show({ l: knownOr(item?.length, 'm', itemAt('length')), p })
  let l: Answer<'m'> = sling
  let EA: Answer<'N'> = legStiffness.show({ EA: knownOr(item?.stiffness, 'N', itemAt('stiffness')), p })
  for (const id of leg.fittings) {
    const [m, EF] = [stock[id]?.length, stock[id]?.stiffness]
    if (m === undefined) continue
    EA = EF === undefined ? stiffnessWithRigid.show({ l, EA, m }) : stiffnessInSeries.show({ l, EA, m, EF })
    l = sumOf('Length of the leg so far', 'm', [
      { label: 'before', answer: l },
      { label: id, answer: m },
    ])
  }
  return EA
}

/** A lifting point of the piece, of gear in the arrangement, or of a part of the piece. */
export function pointNamed(pick: Pick, id: string): HangingPoint | undefined {
  const gear = [...allGear(pick)]
  const places = [
    { pointer: `${pick.pieceAt}/points`, points: pick.piece.points },
    ...gear.map((g) => ({ pointer: pointerOf('gear', g, 'points'), points: pick.gear[g]?.points ?? {} })),
  ]
  for (const { pointer, points } of places) {
    const point = points[id]
    if (point !== undefined) return { id, pointer: pointer + pointerOf(id), at: coordinates(point.at), point }
  }
  return undefined
}

/** Everything under the hook but the spreader. Rigging counts at the lower end: the cautious side for the legs. */
function weightBelow(pick: Pick, spreaders: ReadonlySet<string>, carried: readonly Term<'kg'>[]): Answer<'N'> {
  const names = new Set([...spreaders].map((id) => pick.gear[id]?.name ?? id))
  const rigging = riggingLines(pick, pick.main).filter((line) => !names.has(line.label))
  return massesWeight([...carried, ...rigging], 'Load on the legs')
}

const massesWeight = (terms: readonly Term<'kg'>[], title: string): Answer<'N'> =>
  weightOf.show({ m: sumOf(title, 'kg', terms), g: GRAVITY })

/** With frames and cradles bolted to the piece, at their own centres of gravity. */
export function cogWithGear(pick: Pick): Vec3 {
  const piece = pick.set.design.value ?? pick.set.net.value
  const bolted = gearBoltedOn(pick)
  if (piece === undefined || bolted.length === 0) return pick.set.cogMachine
  const total = bolted.reduce((sum, g) => sum + g.mass, piece)
  const moment = bolted.reduce<Vec3>((sum, g) => add(sum, scale(g.cog, g.mass)), scale(pick.set.cogMachine, piece))
  return scale(moment, 1 / total)
}

/** Gear of both hooks' arrangements, each once: a frame bolted to the piece may be listed at either. */
const allGear = ({ main, tail }: Pick): Set<string> =>
  new Set([main, tail].flatMap((h) => (h?.rigging === undefined ? [] : gearOf(h.rigging))))

function gearBoltedOn(pick: Pick): { mass: number; cog: Vec3 }[] {
  return boltedGear(pick).flatMap((id) => {
    const g = pick.gear[id]
    return g?.cog === undefined ? [] : [{ mass: g.mass.value ?? 0, cog: coordinates(g.cog) }]
  })
}

function missingIn(hooked: Hooked, legs: readonly RigLeg[]): Record<string, Answer> {
  if (legs.length === 0) return { legs: given('1', `${hooked.riggingAt}/legs`, undefined) }
  return Object.fromEntries(
    legs.flatMap((leg) => [
      ...(leg.lower === undefined && !leg.above ? [open(`${leg.id}: where it is fixed`, `${leg.pointer}/to`)] : []),
      ...(!leg.above && leg.node !== undefined && hooked.rigging?.nodes[leg.node] === undefined
        ? [open(`${leg.id}: what it hangs from`, `${leg.pointer}/from`)]
        : []),
    ]),
  )
}

const open = (label: string, pointer: string): [string, Answer] => [label, given('1', pointer, undefined)]

/** A point of the machine frame in the body frame. */
export const inBody = (rig: Rig, p: Vec3): Vec3 => apply(rig.turn, p)
