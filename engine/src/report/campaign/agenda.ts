import { showQuantity, type UnitSystem } from '../../working/quantity.ts'
import type { Campaign } from './campaign.ts'
import type { Track } from './trackOf.ts'
import { dateWords, hookText, KIND_WORDS, massText, moreOf, slipsText, supplyWords, useText } from './words.ts'

/** Something that happens on a day, for those who go along the diagram by keys or hear it. */
export interface AgendaEvent {
  /** Seconds of the plan's clock. */
  at: number
  kind: 'lift' | 'delivery' | 'restart' | 'today'
  /** The entity that it is about. */
  pointer: string
  words: string
  lift?: string
}

/** One piece as a row: what the diagram shows of it. */
export interface AgendaPiece {
  pointer: string
  name: string
  bay: string
  out: string
  mass: string
  basis: string
  hook: string
  use: string
  wind: string
  turned: string
  back: string
  change: string
  lift: string
  liftBack: string | undefined
  /** Instances that it is made of. */
  parts: readonly string[]
}

export interface Agenda {
  events: readonly AgendaEvent[]
  /** From the lane at the top down. */
  pieces: readonly AgendaPiece[]
}

/** The diagram's content in words: events in their order, and a row for each piece. */
export function agendaOf(campaign: Campaign, units: UnitSystem): Agenda {
  const { origin, lifts, supplies, restart, today } = campaign
  const events: AgendaEvent[] = [
    ...lifts.flatMap(({ runs }) =>
      runs.map((run): AgendaEvent => {
        const track = campaign.tracks.find((t) => t.piece === run.piece || t.events.some((e) => e.lift === run.lift))
        const fails = run.fails ? ', a check FAILS' : ''
        return {
          at: run.kind === 'back' ? run.start : run.finish,
          kind: 'lift',
          pointer: track?.pointer ?? `/pieces/${run.piece}`,
          words: `${dateWords(origin, run.start)}: ${run.name} ${KIND_WORDS[run.kind]}, ${hookText(run, units)} at the hook, ${useText(run.use)}${fails}.`,
          lift: run.lift,
        }
      }),
    ),
    ...supplies.map(
      (s): AgendaEvent => ({ at: s.arrives, kind: 'delivery', pointer: s.pointer, words: supplyWords(s, campaign) }),
    ),
    ...(restart === undefined
      ? []
      : [
          {
            at: restart,
            kind: 'restart',
            pointer: '/programme/restart',
            words: `Restart planned ${dateWords(origin, restart)}.`,
          } as const,
        ]),
    ...(today === undefined
      ? []
      : [
          {
            at: today,
            kind: 'today',
            pointer: '/programme/today',
            words: `Today, ${dateWords(origin, today)}.`,
          } as const,
        ]),
  ]
  const order = new Map(campaign.lanes.map(({ bay }, i) => [bay, i]))
  const pieces = [...campaign.tracks]
    .sort((a, b) => (order.get(a.bay) as number) - (order.get(b.bay) as number) || a.out - b.out)
    .map((track) => pieceRow(track, campaign, units))
  return { events: events.sort((a, b) => a.at - b.at), pieces }
}

function pieceRow(track: Track, campaign: Campaign, units: UnitSystem): AgendaPiece {
  const { origin, model } = campaign
  const slips = slipsText(track, campaign)
  const more = moreOf(track)
  const turns = track.events.filter((e) => e.kind === 'turn').map((e) => dateWords(origin, e.at, false))
  const typed = model.project.pieces[track.piece]
  return {
    pointer: track.pointer,
    name: track.name,
    bay: track.bay,
    out: `${dateWords(origin, track.out)}${slips.out}`,
    mass: massText(track.mass, units),
    basis: track.basis,
    hook: hookText(track, units),
    use: track.use === undefined ? 'open' : track.use.toFixed(3),
    wind: track.wind === undefined ? 'open' : showQuantity(track.wind, 'm/s', units),
    turned: turns.join(', '),
    back: track.back === undefined ? 'stays out' : `${dateWords(origin, track.back)}${slips.back}`,
    change: more === 0 ? '' : `${more > 0 ? '+' : '−'}${massText(Math.abs(more), units)}`,
    lift: track.liftOut,
    liftBack: track.liftBack,
    parts: (typed?.parts ?? []).flatMap((part) => model.instances.ofEntry.get(part)?.map((i) => i.id) ?? [part]),
  }
}
