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
}

interface Kept {
  element: HTMLElement
  text: string
  width: number
}

const HEIGHT = 16
const OFF = 6

/** Texts over the drawing: those that would run into one another are left out, the more important ones first. */
export interface Labels {
  show: (
    placed: readonly Placed[],
    project: (at: Vector3) => { x: number; y: number; seen: boolean },
    size: { width: number; height: number },
  ) => void
  end: () => void
}

const within = (at: number, most: number): number => Math.max(2, Math.min(most - 2, at))

export function labelsIn(host: HTMLElement): Labels {
  const layer = document.createElement('div')
  layer.className = 'space-labels'
  layer.ariaHidden = 'true'
  host.append(layer)
  const pool: Kept[] = []
  const keep = (i: number): Kept => {
    const known = pool[i]
    if (known !== undefined) return known
    const element = document.createElement('span')
    layer.append(element)
    const made = { element, text: '', width: 0 }
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
        if (own.text !== label.text) {
          own.element.textContent = label.text
          own.text = label.text
          own.width = 0
        }
        const { x, y, seen } = project(label.at)
        if (!seen) {
          own.element.style.visibility = 'hidden'
          return
        }
        if (own.width === 0) own.width = own.element.offsetWidth
        const left = label.side === 'left' ? x - own.width - OFF : label.side === 'right' ? x + OFF : x - own.width / 2
        const top = label.side === 'over' ? y - HEIGHT - 4 : y - HEIGHT / 2
        // what is measured is not left out at the edge, but moved in
        const x0 = label.rank < 0 ? within(left, width - own.width) : left
        const y0 = label.rank < 0 ? within(top, height - HEIGHT) : top
        const box = { x0, y0, x1: x0 + own.width, y1: y0 + HEIGHT }
        const free =
          x0 >= 2 &&
          box.x1 <= width - 2 &&
          y0 >= 2 &&
          box.y1 <= height - 2 &&
          taken.every((t) => box.x1 + 4 < t.x0 || t.x1 + 4 < box.x0 || box.y1 < t.y0 || t.y1 < box.y0)
        own.element.style.visibility = free ? 'visible' : 'hidden'
        if (!free) return
        taken.push(box)
        own.element.style.transform = `translate(${Math.round(x0)}px, ${Math.round(y0)}px)`
      })
      for (let i = ranked.length; i < pool.length; i++) (pool[i] as Kept).element.style.visibility = 'hidden'
    },
    end: () => layer.remove(),
  }
}
