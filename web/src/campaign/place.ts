import type { Place } from './keys.ts'
import type { CampaignView } from './view.ts'

/** A piece as a sentence. */
export const wordsOf = (view: CampaignView, pointer: string | undefined): string | undefined => {
  const piece = view.pieces.find((p) => p.pointer === pointer)
  return piece === undefined
    ? undefined
    : `${piece.name}: out ${piece.out} to ${piece.bay}, ${piece.mass} ${piece.basis}, ${piece.hook} at the hook, back ${piece.back}.`
}

/** A lift or a part that is selected elsewhere stands for its piece here. */
export function pieceSelected({ pieces }: CampaignView, selected: string | undefined): string | undefined {
  const [, section, id] = selected?.split('/') ?? []
  if (id === undefined) return undefined
  if (section === 'lifts') return pieces.find((p) => p.lift === id || p.liftBack === id)?.pointer
  return section === 'parts' ? pieces.find((p) => p.parts.includes(id))?.pointer : undefined
}

/** The lift to open for what is selected: that of the event one stands at, else the piece's way out. */
export function liftOf(
  { pieces, events }: CampaignView,
  pointer: string,
  event: number | undefined,
): string | undefined {
  const at = event === undefined ? undefined : events[event]
  if (at?.pointer === pointer && at.lift !== undefined) return at.lift
  const [, section, id] = pointer.split('/')
  return section === 'lifts' ? id : pieces.find((p) => p.pointer === pointer)?.lift
}

export const eventPlace = ({ events }: CampaignView, index: number): Place => ({
  event: index,
  pointer: events[index]?.pointer,
})

/** A piece, at its event that is nearest to where one was. */
export function piecePlace({ events }: CampaignView, pointer: string, from: number | undefined): Place {
  const own = events.flatMap((e, i) => (e.pointer === pointer ? [i] : []))
  const near = own.reduce<number | undefined>(
    (best, i) => (best === undefined || Math.abs(i - (from ?? 0)) < Math.abs(best - (from ?? 0)) ? i : best),
    undefined,
  )
  return { event: near, pointer }
}
