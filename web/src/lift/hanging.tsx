import type { LiftView } from '../engine/protocol.ts'
import { degrees, figureOf } from '../parts/figures.ts'
import { useOpened } from '../parts/opens.tsx'
import { Scroll } from '../parts/scroll.tsx'
import { WorkingPanel } from '../parts/working.tsx'
import { useCommonStore } from '../shared.ts'
import { routeTo, useShown } from '../state.ts'
import type { LiftPageView } from './pageView.ts'

/** As it hangs: components with their use, heights, and how near it comes to what stays; legs as figures. */
export function Hanging({ lift, page }: { lift: LiftView; page: LiftPageView }) {
  const opened = useOpened()
  const { along, piece } = page
  return (
    <section className="hanging">
      <div className="titled">
        <h2>As it hangs</h2>
        <span className="small quiet">
          hangs {page.tilt} off plumb
          {along !== undefined && (
            <>
              {' · '}
              <In3d along={Math.max(0, along - 0.5)} piece={piece} />
            </>
          )}
        </span>
      </div>
      <Picture
        svg={page.drawings.hanging}
        name={`As it hangs: ${lift.name}, with the use of each component and the heights under the hook`}
        onCheck={opened.toggle}
      />
      {opened.key !== undefined && <WorkingPanel key={opened.key} of={{ check: opened.key }} onClose={opened.close} />}
      <h3 className="above">From above</h3>
      <Picture svg={page.drawings.plan} name={`From above: ${lift.name}, with the gaps to what stays`} />
      {lift.legs.length > 0 && <Legs lift={lift} page={page} />}
    </section>
  )
}

function In3d({ along, piece }: { along: number; piece: string }) {
  const { set } = useCommonStore()
  return (
    <a href={routeTo('model')} onClick={() => set({ along, selected: `/pieces/${piece}` })}>
      along the path, in 3D
    </a>
  )
}

interface PictureProps {
  svg: string
  name: string
  /** A component that is pressed opens the working of its check; the same check stands in the table. */
  onCheck?: (check: string, from: HTMLElement) => void
}

export function Picture({ svg, name, onCheck }: PictureProps) {
  const pressed = (event: React.MouseEvent<HTMLElement>): void => {
    const check = (event.target as Element).closest<SVGElement>('[data-view]')?.dataset.view
    if (check?.includes('/')) onCheck?.(check, event.currentTarget)
  }
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: a second way by pointer; the keyboard opens the same workings in the table of checks
    <div
      className={onCheck === undefined ? 'page-drawing' : 'page-drawing opening'}
      role="img"
      aria-label={name}
      onClick={pressed}
    >
      {/* biome-ignore lint/security/noDangerouslySetInnerHtml: SVG written by the engine's own writer, text escaped there */}
      <div aria-hidden="true" dangerouslySetInnerHTML={{ __html: svg }} />
    </div>
  )
}

function Legs({ lift, page }: { lift: LiftView; page: LiftPageView }) {
  const { system } = useShown()
  const like = Math.max(...lift.legs.map((l) => l.worst ?? 0), 1)
  const { unit } = figureOf(like, 'N', system)
  return (
    <>
      <h3 className="above">Legs</h3>
      <Scroll name="Legs">
        <table>
          <caption className="unseen">Legs of the rigging</caption>
          <thead>
            <tr>
              <th scope="col">Leg</th>
              <th scope="col" className="num">
                Tension, {unit}
              </th>
              <th scope="col" className="num">
                Worst, {unit}
              </th>
              <th scope="col" className="num">
                From plumb
              </th>
            </tr>
          </thead>
          <tbody>
            {lift.legs.map((leg) => (
              <tr key={leg.id}>
                <th scope="row">
                  {leg.id}
                  {leg.slack ? ', slack' : ''}
                </th>
                <td className="num">{figureOf(leg.tension, 'N', system, like).number}</td>
                <td className="num">{figureOf(leg.worst, 'N', system, like).number}</td>
                <td className="num">{degrees(leg.angle)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      {page.legBalance !== '' && <p className="small quiet">{page.legBalance}</p>}
    </>
  )
}
