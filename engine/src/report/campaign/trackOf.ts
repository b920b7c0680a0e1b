import { dayNumber } from '../../programme/index.ts'
import type { StripStep } from '../../strip/index.ts'
import { pointerOf } from '../../working/pointer.ts'
import { DAY } from '../civil.ts'
import type { Reading } from './campaign.ts'

/** Something that happens to a piece while it is out. */
export interface TrackEvent {
  kind: 'turn' | 'weighed'
  at: number
  lift?: string
  /** kg, of a weighing. */
  measured?: number
}

/** The way of one piece: out of the shaft or off another piece, on a bay, and back. Seconds of the plan's clock. */
export interface Track {
  piece: string
  pointer: string
  name: string
  short: string
  /** kg; as it goes out (weighed where there is a record) and as it comes back, undefined where open. */
  mass: number | undefined
  massBack: number | undefined
  basis: 'weighed' | 'as found'
  /** What the hook is held to, kg, over what the plan may use. */
  demand: number | undefined
  allowed: number | undefined
  use: number | undefined
  useBack: number | undefined
  /** Gust that stops the lift, m/s. */
  wind: number | undefined
  bay: string
  /** The piece it was taken off; absent when it came out of the shaft. */
  off?: string
  /** Level of its centre of gravity in the machine, site z. */
  level: number
  /** Hook time on the way out begins and ends. */
  lifting: number
  out: number
  /** Hook time on the way back begins and ends. */
  back: number | undefined
  home: number | undefined
  step: string
  liftOut: string
  liftBack: string | undefined
  events: readonly TrackEvent[]
}

/** The track of a piece; of a piece that only turned where it lay, the track of what it is part of. */
export const trackOf = (tracks: readonly Track[], piece: string | undefined): Track | undefined =>
  piece === undefined ? undefined : tracks.find((t) => t.piece === piece)

/** Every piece that a lift takes away, in the order of the steps. */
export function tracksOf(reading: Reading): Track[] {
  const tracks: Track[] = []
  // which piece's track a step belongs to: a step that only turns a piece where it lies stays on the track of what it lies in
  const carriers = new Map<string, string>()
  for (const step of reading.strip.steps) {
    const known = tracks.find((t) => t.piece === step.piece)
    const under = step.from === 'shaft' ? undefined : carriers.get(step.from)
    const track = known === undefined ? newTrack(reading, step, under, tracks) : undefined
    if (track !== undefined) tracks.push(track)
    const carrier = known?.piece ?? track?.piece ?? under
    if (carrier !== undefined) carriers.set(step.step, carrier)
  }
  const events = eventsOf(reading, carriers)
  return tracks.map((t) => ({ ...t, events: events.filter((e) => e.piece === t.piece).map(({ event }) => event) }))
}

function newTrack(
  reading: Reading,
  step: StripStep,
  off: string | undefined,
  others: readonly Track[],
): Track | undefined {
  const { model, mass, lift, when } = reading
  const { project } = model
  const [piece, outcome, typed] = [
    project.pieces[step.piece],
    step.lift === undefined ? undefined : lift.lifts[step.lift],
    step.lift === undefined ? undefined : project.lifts[step.lift],
  ]
  const bay = typed?.bay ?? piece?.bay
  const out = when(`${step.step}.out`)
  if (piece === undefined || outcome === undefined || typed === undefined || bay === undefined || out === undefined)
    return undefined
  if (off !== undefined && typed.kind === 'turn' && others.find((t) => t.piece === off)?.bay === bay) return undefined
  const [masses, back] = [mass.pieces[step.piece], when(`${step.step}.back`)]
  const liftBack = project.steps[step.step]?.back
  const outcomeBack = liftBack === undefined ? undefined : lift.lifts[liftBack]
  return {
    piece: step.piece,
    pointer: pointerOf('pieces', step.piece),
    name: piece.name,
    short: piece.short ?? piece.name,
    mass: (masses?.weighed ?? masses?.found)?.net.value,
    massBack: masses?.returned.net.value,
    basis: masses?.weighed === undefined ? 'as found' : 'weighed',
    demand: outcome.demand.value,
    allowed: outcome.allowed.value,
    use: useOf(outcome),
    useBack: outcomeBack === undefined ? undefined : useOf(outcomeBack),
    wind: outcome.allowableWind.value,
    bay,
    ...(off === undefined ? {} : { off }),
    level: masses?.found.cogSite[2] ?? 0,
    lifting: out.start,
    out: out.finish,
    back: back?.start,
    home: back?.finish,
    step: step.step,
    liftOut: outcome.id,
    liftBack: outcomeBack?.id,
    events: [],
  }
}

const useOf = ({ demand, allowed }: { demand: { value?: number }; allowed: { value?: number } }): number | undefined =>
  demand.value === undefined || !allowed.value ? undefined : demand.value / allowed.value

function eventsOf(
  { model, programme, when }: Reading,
  carriers: ReadonlyMap<string, string>,
): { piece: string; event: TrackEvent }[] {
  const { project } = model
  const turns = Object.values(programme.activities).flatMap((a) => {
    const piece = a.step === undefined ? undefined : carriers.get(a.step)
    const planned = when(a.id)
    if ((a.kind !== 'turn' && a.kind !== 'turn back') || piece === undefined || planned === undefined) return []
    const event: TrackEvent = { kind: 'turn', at: planned.finish, ...(a.lift === undefined ? {} : { lift: a.lift }) }
    return [{ piece, event }]
  })
  const start = dayNumber(project.programme?.start as string)
  const weighed = Object.values(project.weighings).flatMap(({ piece, date, measured }) => {
    if (date === undefined) return []
    const at = (dayNumber(date) - start + 0.5) * DAY
    const event: TrackEvent = {
      kind: 'weighed',
      at,
      ...(measured.value === undefined ? {} : { measured: measured.value }),
    }
    return [{ piece, event }]
  })
  return [...turns, ...weighed].sort((a, b) => a.event.at - b.event.at)
}
