import type { LiftResult } from '../../lift/index.ts'
import type { MassResult } from '../../mass/index.ts'
import type { Model } from '../../model/index.ts'
import type { ProgrammeResult } from '../../programme/index.ts'
import type { StripResult } from '../../strip/index.ts'
import { DAY } from '../civil.ts'
import { laneOrder } from './lanes.ts'

/** What the diagram of the campaign reads. */
export interface CampaignStages {
  model: Model
  mass: MassResult
  strip: StripResult
  lift: LiftResult
  programme: ProgrammeResult
}

/** The way of one piece: out of the shaft or off another piece, on a bay, and back. Seconds from the start of the programme. */
export interface Track {
  piece: string
  name: string
  /** kg; as it goes out and as it comes back, undefined where open. */
  mass: number | undefined
  massBack: number | undefined
  /** Load on the hook over what the plan may use. */
  use: number | undefined
  bay: string
  /** The piece it was taken off; absent when it came out of the shaft. */
  off?: string
  /** Level of its centre of gravity in the machine, site z. */
  level: number
  out: number
  back: number | undefined
  liftOut: string
}

/** Work on a bay or on the floor of the shaft. */
export interface BayWork {
  where: string
  name: string
  start: number
  finish: number
}

export interface Lane {
  bay: string
  /** From the middle of the shaft, m. */
  distance: number
  /** Pa */
  allowable: number | undefined
}

/** The campaign as data: tracks, lanes from the top down, work, and the days that matter. */
export interface Campaign {
  title: string
  /** UTC instant of second zero, ISO 8601. */
  origin: string
  tracks: readonly Track[]
  lanes: readonly Lane[]
  crossings: number
  works: readonly BayWork[]
  /** Days with a lift, from the start of the programme. */
  liftDays: readonly number[]
  begin: number
  end: number
  restart: number | undefined
  restartUnlimited: number | undefined
  today: number | undefined
}

/** The campaign that follows from order, lifts and plan; undefined without a programme or without lifts in it. */
export function campaignOf(stages: CampaignStages): Campaign | undefined {
  const { model, programme } = stages
  const typed = model.project.programme
  if (typed === undefined || programme.origin === undefined) return undefined
  const tracks = tracksOf(stages)
  if (tracks.length === 0) return undefined
  const bays = [...new Set(tracks.map((t) => t.bay))]
  const { order, crossings } = laneOrder(
    bays,
    tracks.map((t) => ({ lane: t.bay, ...fromLane(t, tracks), out: t.out, back: t.back ?? Number.MAX_SAFE_INTEGER })),
  )
  const liftDays = [
    ...new Set(
      tracks.flatMap((t) => [t.out, ...(t.back === undefined ? [] : [t.back])]).map((s) => Math.floor(s / DAY)),
    ),
  ]
  const end = Math.max(programme.restart ?? 0, ...tracks.map((t) => t.back ?? t.out)) + MARGIN
  return {
    title: model.project.about.title,
    origin: programme.origin,
    tracks,
    lanes: order.map((bay) => laneOf(bay, model)),
    crossings,
    works: worksOf(stages),
    liftDays: liftDays.sort((a, b) => a - b),
    begin: 0,
    end,
    restart: programme.restart,
    restartUnlimited: programme.restartUnlimited,
    today: typed.today === undefined ? undefined : (Date.parse(typed.today) - Date.parse(programme.origin)) / 1000,
  }
}

const MARGIN = 21 * DAY

/** Lane of the piece that a track begins on. */
function fromLane({ off }: Track, tracks: readonly Track[]): { from?: string } {
  const parent = tracks.find((t) => t.piece === off)
  return parent === undefined ? {} : { from: parent.bay }
}

function tracksOf({ model, mass, strip, lift, programme }: CampaignStages): Track[] {
  const { project } = model
  const seen = new Set<string>()
  return strip.steps.flatMap((step) => {
    const [piece, outcome] = [project.pieces[step.piece], step.lift === undefined ? undefined : lift.lifts[step.lift]]
    const bay = (step.lift === undefined ? undefined : project.lifts[step.lift]?.bay) ?? piece?.bay
    const out = momentOf(programme, step.lift, 'finish')
    if (piece === undefined || outcome === undefined || bay === undefined || out === undefined || seen.has(step.piece))
      return []
    seen.add(step.piece)
    const masses = mass.pieces[step.piece]
    const parent = strip.steps.find((s) => s.step === step.from)?.piece
    return [
      {
        piece: step.piece,
        name: piece.short ?? piece.name,
        mass: (masses?.weighed ?? masses?.found)?.net.value,
        massBack: masses?.returned.net.value,
        use:
          outcome.demand.value === undefined || !outcome.allowed.value
            ? undefined
            : outcome.demand.value / outcome.allowed.value,
        bay,
        ...(step.from === 'shaft' || parent === undefined ? {} : { off: parent }),
        level: masses?.found.cogSite[2] ?? 0,
        out,
        back: momentOf(programme, project.steps[step.step]?.back, 'start'),
        liftOut: outcome.id,
      },
    ]
  })
}

/** When the hook's own part of a lift ends or begins: the shortest of the activities that carry it out. */
function momentOf(
  { activities, plan }: ProgrammeResult,
  lift: string | undefined,
  which: 'start' | 'finish',
): number | undefined {
  if (lift === undefined) return undefined
  const own = Object.values(activities).filter((a) => a.lift === lift && /\.(out|back)$/.test(a.id))
  const times = own.flatMap((a) => plan[a.id]?.[which] ?? [])
  return times.length === 0 ? undefined : which === 'finish' ? Math.max(...times) : Math.min(...times)
}

function laneOf(bay: string, { project }: Model): Lane {
  const own = project.bays[bay]
  const [x, y] = [own?.centre[0].value ?? 0, own?.centre[1].value ?? 0]
  return { bay, distance: Math.hypot(x, y), allowable: own?.allowable.value }
}

/** Work that holds a bay or the floor of the shaft, longer than a day. */
function worksOf({ model, programme }: CampaignStages): BayWork[] {
  const { bays, programme: typed } = model.project
  const isPlace = (id: string): boolean =>
    bays[id] !== undefined || (typed?.resources[id]?.kind === 'space' && bays[id] === undefined)
  return Object.values(programme.activities).flatMap((a) => {
    const planned = programme.plan[a.id]
    const where = Object.keys(a.needs).find(isPlace)
    if (planned === undefined || where === undefined || a.lift !== undefined || planned.finish - planned.start < DAY)
      return []
    return [{ where, name: a.name, start: planned.start, finish: planned.finish }]
  })
}
