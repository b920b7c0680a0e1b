import type { CampaignView } from './view.ts'

/** What a key asks of the diagram. */
export type Move =
  | { kind: 'event'; index: number }
  | { kind: 'piece'; pointer: string }
  | { kind: 'zoom'; factor: number }
  | { kind: 'pan'; share: number }
  | { kind: 'shift' }
  | { kind: 'time'; by: 1 | -1 }
  | { kind: 'select' }
  | { kind: 'leave' }

/** Where one is: an event of the agenda, or a piece between events. */
export interface Place {
  event: number | undefined
  pointer: string | undefined
}

/** Left and right by event, up and down by piece, T today, N next lift, S the shift, plus and minus zoom, Enter selects. */
export function moveOf(key: string, view: CampaignView, { event, pointer }: Place): Move | undefined {
  const { events, pieces } = view
  const at = pieces.findIndex((p) => p.pointer === pointer)
  switch (key) {
    case 'Shift+ArrowRight':
      return { kind: 'time', by: 1 }
    case 'Shift+ArrowLeft':
      return { kind: 'time', by: -1 }
    case 'ArrowRight':
      return eventAt(events, event === undefined ? 0 : event + 1)
    case 'ArrowLeft':
      return eventAt(events, event === undefined ? events.length - 1 : event - 1)
    case 'ArrowDown':
      return pieceAt(view, at < 0 ? 0 : at + 1)
    case 'ArrowUp':
      return pieceAt(view, at < 0 ? pieces.length - 1 : at - 1)
    case 't':
    case 'T':
      return eventAt(events, nearestTo(view, view.today ?? 0))
    case 'n':
    case 'N':
      return eventAt(events, nextLift(view))
    case 's':
    case 'S':
      return { kind: 'shift' }
    case '+':
    case '=':
      return { kind: 'zoom', factor: 0.6 }
    case '-':
      return { kind: 'zoom', factor: 1 / 0.6 }
    case 'PageDown':
      return { kind: 'pan', share: 0.5 }
    case 'PageUp':
      return { kind: 'pan', share: -0.5 }
    case 'Enter':
    case ' ':
      return { kind: 'select' }
    case 'Escape':
      return { kind: 'leave' }
    default:
      return undefined
  }
}

const eventAt = (events: CampaignView['events'], index: number): Move | undefined =>
  events[index] === undefined ? undefined : { kind: 'event', index }

const pieceAt = ({ pieces }: CampaignView, index: number): Move | undefined => {
  const piece = pieces[index]
  return piece === undefined ? undefined : { kind: 'piece', pointer: piece.pointer }
}

const nearestTo = ({ events }: CampaignView, at: number): number =>
  events.reduce((best, e, i) => (Math.abs(e.at - at) < Math.abs((events[best]?.at ?? Infinity) - at) ? i : best), 0)

/** First lift from today on; without a today, the first of all. */
export const nextLift = ({ events, today }: CampaignView): number =>
  events.findIndex((e) => e.kind === 'lift' && (today === undefined || e.at >= today))
