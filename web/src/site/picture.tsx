import './site.css'
import { useEffect, useId, useState } from 'react'
import { Picture, useEmphasis } from '../campaign/picture.tsx'
import { useWidth } from '../parts/width.ts'
import { useSelected } from '../shared.ts'
import { useShown } from '../state.ts'
import { Beside } from './beside.tsx'
import { GridChoice, Movables } from './movables.tsx'
import { gridsOf } from './moves.ts'
import type { SitePictureName, SitePictureView } from './view.ts'

/** Pixels of the page to a millimetre of a drawing: its smallest type is then as small as the page's smallest. */
const PIXELS = 4.9
export const ZOOMS = [1, 1.5, 2.25, 3.4]
/** Narrower than this nobody reads it, px: a phone shows a part of it at a time. */
const NARROWEST = 760

interface SitePictureProps {
  of: SitePictureName
  title: string
  step: string | undefined
  /** What a picture brings of its own stands under it, and not beside it. */
  wide?: boolean
  /** Links to what is printed. */
  children?: React.ReactNode
}

/** A drawing of the site that one can look into: it fits its place, is enlarged by button, and what is pressed is selected. */
export function SitePicture({ of, title, step, wide = false, children }: SitePictureProps) {
  const { client, system, summary, readOnly } = useShown()
  const { selected, set } = useSelected()
  const [place, room] = useWidth<HTMLDivElement>(0)
  const width = room === 0 ? 0 : Math.max(NARROWEST, room)
  const [view, setView] = useState<SitePictureView>()
  const [zoom, setZoom] = useState(0)
  const [grid, setGrid] = useState<number>()
  const heading = useId()
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again when the project changes
  useEffect(() => {
    if (width === 0) return
    let here = true
    client.ask('site', { of, step, system, width: width / PIXELS }).then((answer) => here && setView(answer))
    return () => {
      here = false
    }
  }, [client, of, step, system, width, summary])
  useEmphasis(place, view?.svg, undefined, selected)
  const press = (event: React.MouseEvent): void => {
    const group = (event.target as Element).closest<SVGGElement>('g.about[role="button"]')
    const pointer = group?.dataset.about
    if (pointer !== undefined) set({ selected: pointer === selected ? undefined : pointer })
  }
  const beside = view?.beside
  return (
    <section className="site-picture" aria-labelledby={heading}>
      <div className="titled">
        <h2 id={heading}>{title}</h2>
        <span className="tools small">
          {view?.placing !== undefined && readOnly === undefined && (
            <GridChoice grid={grid} grids={gridsOf(system)} onGrid={setGrid} />
          )}
          <Zoom level={zoom} onZoom={setZoom} of={title} />
          {children}
        </span>
      </div>
      <div className={beside === undefined || wide ? undefined : 'site-columns'}>
        <div ref={place}>
          {beside?.missing !== undefined && <p className="quiet">{beside.missing}</p>}
          {view !== undefined && beside?.missing === undefined && (
            <Window name={title} zoomed={zoom > 0 || width > room}>
              {/* biome-ignore lint/a11y/noStaticElementInteractions: the pointer's way; rows of the tables select by keyboard */}
              {/* biome-ignore lint/a11y/useKeyWithClickEvents: rows of the tables select by keyboard */}
              <div
                className="drawn"
                style={{ width: `${((100 * width) / room) * (ZOOMS[zoom] as number)}%` }}
                onClick={press}
              >
                <Picture svg={view.svg} />
                {view.placing !== undefined && grid !== undefined && (
                  <Movables view={view} placing={view.placing} grid={grid} />
                )}
              </div>
            </Window>
          )}
        </div>
        {beside !== undefined && <Beside of={beside} title={title} />}
      </div>
    </section>
  )
}

/** Two buttons that enlarge a drawing and make it smaller. */
export function Zoom({ level, onZoom, of }: { level: number; onZoom: (level: number) => void; of: string }) {
  return (
    <>
      <button
        type="button"
        disabled={level === 0}
        aria-label={`${of}: smaller`}
        onClick={() => onZoom(Math.max(0, level - 1))}
      >
        −
      </button>
      <button
        type="button"
        disabled={level === ZOOMS.length - 1}
        aria-label={`${of}: larger`}
        onClick={() => onZoom(Math.min(ZOOMS.length - 1, level + 1))}
      >
        +
      </button>
    </>
  )
}

/** Scrolls both ways once enlarged, by pointer and by keys. */
export function Window({ name, zoomed, children }: { name: string; zoomed: boolean; children: React.ReactNode }) {
  if (!zoomed) return <div className="window">{children}</div>
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys
    <section className="window zoomed" tabIndex={0} aria-label={`${name}, enlarged`}>
      {children}
    </section>
  )
}

/** What is printed of a drawing: the papers as PDF, and a page as SVG. */
export function PrintLinks({ file, step }: { file: string; step?: string | undefined }) {
  const { system } = useShown()
  const query = (paper: string): string =>
    `paper=${paper}&units=${system}${step === undefined ? '' : `&step=${encodeURIComponent(step)}`}`
  return (
    <span className="print">
      PDF
      {['A3', 'A2', 'A1'].map((paper) => (
        <a
          key={paper}
          href={`/api/report/site/${file}.pdf?${query(paper)}`}
          download={`site-${file}-${paper}.pdf`}
          aria-label={`Download ${file} of the site as PDF, ${paper}`}
        >
          {paper}
        </a>
      ))}
      <a
        href={`/api/report/site/${file}.svg?${query('A3')}`}
        download={`site-${file}-A3.svg`}
        aria-label={`Download ${file} of the site as SVG, A3`}
      >
        SVG
      </a>
    </span>
  )
}
