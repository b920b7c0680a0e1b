import { memo, type RefObject, useEffect } from 'react'

/** The drawing itself: put in place once for each SVG. */
export const Picture = memo(function Picture({ svg }: { svg: string }) {
  // biome-ignore lint/security/noDangerouslySetInnerHtml: SVG written by the engine's own writer, text escaped there
  return <div className="picture" dangerouslySetInnerHTML={{ __html: svg }} />
})

const SVG = 'http://www.w3.org/2000/svg'
/** Width of what a pointer takes hold of, mm of the drawing. */
const HOLD = 3.4

/** Thin tracks get a wide unseen line that the pointer can rest on. */
export function useHolds(box: RefObject<HTMLElement | null>, svg: string | undefined): void {
  // biome-ignore lint/correctness/useExhaustiveDependencies: once for each picture
  useEffect(() => {
    for (const group of box.current?.querySelectorAll('g[data-about^="/pieces/"]') ?? [])
      for (const path of group.querySelectorAll('path[stroke]:not([fill])')) {
        const hold = document.createElementNS(SVG, 'path')
        hold.setAttribute('d', path.getAttribute('d') ?? '')
        hold.setAttribute('class', 'hold')
        hold.setAttribute('stroke-width', String(HOLD))
        group.prepend(hold)
      }
  }, [svg])
}

const LABELS = 'g[data-view^="label:"]'

/** Marks groups: what is looked at stands out, what is selected is in the colour of now. */
export function useEmphasis(
  box: RefObject<HTMLElement | null>,
  svg: string | undefined,
  looked: string | undefined,
  selected: string | undefined,
): void {
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new picture has none of the marks
  useEffect(() => {
    const { current } = box
    if (current === null) return
    current.classList.toggle('looking', looked !== undefined)
    for (const label of current.querySelectorAll<SVGGElement>(LABELS))
      label.classList.toggle(
        'on',
        label.dataset.view === `label:${looked}` || label.dataset.view === `label:${selected}`,
      )
    for (const group of current.querySelectorAll<SVGGElement>('g.about')) {
      const { about } = group.dataset
      group.classList.toggle('on', looked !== undefined && about === looked)
      const isSelected = selected !== undefined && about === selected
      group.classList.toggle('selected', isSelected)
      if (group.getAttribute('role') === 'button') group.setAttribute('aria-pressed', String(isSelected))
    }
  }, [svg, looked, selected])
}
