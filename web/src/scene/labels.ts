import type { Vector3 } from 'three'
import type { Layer } from './sceneItem.ts'

/** A text at a place of the drawing. */
export interface Placed {
  at: Vector3
  text: string
  /** Quiet, or what is selected, wrong, or measured. */
  kind: 'quiet' | 'name' | 'edit' | 'fail' | 'ink'
  side: 'left' | 'right' | 'over'
  rank: number
  layer?: Layer
  /** Where there is no room it goes a few lines up or down instead of being left out. */
  stacks?: boolean
}

interface Kept {
  element: HTMLElement
  text: string
  kind: Placed['kind'] | undefined
  width: number
}

const HEIGHT = 16
const OFF = 6
/** Lines from its place at which a text looks for room, the nearest first. */
const LINES = Array.from({ length: 21 }, (_, i) => (i % 2 === 0 ? -i / 2 : (i + 1) / 2))

/** Texts over the drawing: those that would run into one another are left out, the more important ones first. */
export interface Labels {
  show: (
    placed: readonly Placed[],
    project: (at: Vector3) => { x: number; y: number; seen: boolean },
    size: { width: number; height: number },
  ) => void
  end: () => void
}

/** Widths of texts as the drawing sets them, without the page being laid out anew for each. */
function textWidths(layer: HTMLElement): (text: string, kind: Placed['kind']) => number {
  const pen = document.createElement('canvas').getContext('2d')
  const family = getComputedStyle(layer).fontFamily
  return (text, kind) => {
    if (pen === null) return text.length * 7
    pen.font = `${kind === 'edit' || kind === 'fail' ? 650 : 400} 12px ${family}`
    return Math.ceil(pen.measureText(text).width)
  }
}

const within = (at: number, most: number): number => Math.max(2, Math.min(most - 2, at))

export function labelsIn(host: HTMLElement): Labels {
  const layer = document.createElement('div')
  layer.className = 'space-labels'
  layer.ariaHidden = 'true'
  host.append(layer)
  const pool: Kept[] = []
  const widthOf = textWidths(layer)
  const keep = (i: number): Kept => {
    const known = pool[i]
    if (known !== undefined) return known
    const element = document.createElement('span')
    layer.append(element)
    const made: Kept = { element, text: '', kind: undefined, width: 0 }
    pool.push(made)
    return made
  }
  return {
    show: (placed, project, { width, height }) => {
      const taken: { x0: number; y0: number; x1: number; y1: number }[] = []
      const ranked = [...placed].sort((a, b) => a.rank - b.rank)
      ranked.forEach((label, i) => {
        const own = keep(i)
        const kind = `space-label ${label.kind}`
        if (own.element.className !== kind) own.element.className = kind
        if (own.text !== label.text || own.kind !== label.kind) {
          own.element.textContent = label.text
          own.text = label.text
          own.kind = label.kind
          own.width = widthOf(label.text, label.kind)
        }
        const { x, y, seen } = project(label.at)
        if (!seen) {
          own.element.style.visibility = 'hidden'
          return
        }
        const left = label.side === 'left' ? x - own.width - OFF : label.side === 'right' ? x + OFF : x - own.width / 2
        const top = label.side === 'over' ? y - HEIGHT - 4 : y - HEIGHT / 2
        // what is measured is not left out at the edge, but moved in
        const x0 = label.rank < 0 ? within(left, width - own.width) : left
        const y0 = label.rank < 0 ? within(top, height - HEIGHT) : top
        const boxAt = (line: number) => ({
          x0,
          y0: y0 + line * HEIGHT,
          x1: x0 + own.width,
          y1: y0 + (line + 1) * HEIGHT,
        })
        const box = (label.stacks === true ? LINES : LINES.slice(0, 1))
          .map(boxAt)
          .find(
            (b) =>
              b.x0 >= 2 &&
              b.x1 <= width - 2 &&
              b.y0 >= 2 &&
              b.y1 <= height - 2 &&
              taken.every((t) => b.x1 + 4 < t.x0 || t.x1 + 4 < b.x0 || b.y1 - 1 < t.y0 || t.y1 - 1 < b.y0),
          )
        own.element.style.visibility = box === undefined ? 'hidden' : 'visible'
        if (box === undefined) return
        taken.push(box)
        own.element.style.transform = `translate(${Math.round(box.x0)}px, ${Math.round(box.y0)}px)`
      })
      for (let i = ranked.length; i < pool.length; i++) (pool[i] as Kept).element.style.visibility = 'hidden'
    },
    end: () => layer.remove(),
  }
}
