import type { CheckView } from '../engine/protocol.ts'
import { CheckTable, worstFirst } from '../parts/checks.tsx'
import { figureOf } from '../parts/figures.ts'
import { Scroll } from '../parts/scroll.tsx'
import { useCommonStore, useSelected } from '../shared.ts'
import { useShown } from '../state.ts'
import type { GroundView, LoadView } from './view.ts'

/** Which step is shown; the choice is the place along the order that all views share. */
export function StepChoice({ ground }: { ground: GroundView }) {
  const { system } = useShown()
  const { set } = useCommonStore()
  if (ground.steps.length === 0) return <p>No order yet: nothing has been set down on the bays.</p>
  const go = (step: string | undefined): void => {
    const index = ground.steps.findIndex((s) => s.step === step)
    if (index >= 0) set({ along: index + 1 })
  }
  const pressure = (value: number | undefined): string => {
    const { number, unit } = figureOf(value, 'Pa', system)
    return value === undefined ? '' : `, ${number} ${unit} on the wall`
  }
  return (
    <div className="step-choice">
      <label htmlFor="site-step">After step</label>
      <select id="site-step" value={ground.step ?? ''} onChange={(e) => go(e.target.value)}>
        {ground.steps.map((s) => (
          <option key={s.step} value={s.step}>
            {s.step}: {s.name}
            {pressure(s.pressure)}
          </option>
        ))}
      </select>
      {ground.governing !== undefined && ground.governing !== ground.step && (
        <button type="button" onClick={() => go(ground.governing)}>
          Heaviest for the wall
        </button>
      )}
    </div>
  )
}

/** Loads at the step: while the piece hangs, and once it is set down. */
export function Loads({ ground }: { ground: GroundView }) {
  const { system } = useShown()
  const { selected, set } = useSelected()
  if (ground.loads.length === 0) return null
  const all = ground.loads.flatMap((l) => [l.lifting ?? 0, l.down ?? 0])
  const like = Math.max(...all)
  const shown = (value: number | undefined): string =>
    value === undefined ? '' : figureOf(value, 'N', system, like).number
  return (
    <section>
      <div className="titled">
        <h2>What stands there</h2>
        <span className="small quiet">
          {ground.step === ground.governing ? 'no step presses more on the wall' : ''}
        </span>
      </div>
      <Scroll name="What stands there">
        <table>
          <caption className="unseen">Loads after {ground.step}</caption>
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col">On</th>
              <th scope="col" className="num">
                Lifting
              </th>
              <th scope="col" className="num">
                Set down
              </th>
              <th scope="col">
                <span className="unseen">Unit</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {together(ground.loads).map((l, i) => (
              <tr key={l.id} className={selected === selectable(l.pointer) ? 'chosen' : undefined}>
                <th scope="row">
                  <button
                    type="button"
                    className="link"
                    aria-pressed={selected === selectable(l.pointer)}
                    onClick={() => set({ selected: selectable(l.pointer) })}
                  >
                    {l.what}
                  </button>
                </th>
                <td className="quiet">{l.on}</td>
                <td className="num">{shown(l.lifting)}</td>
                <td className="num">{shown(l.down)}</td>
                <td className="unit">{i === 0 ? figureOf(like, 'N', system).unit : ''}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
    </section>
  )
}

/** A leg is shown with its tower. */
const selectable = (pointer: string): string => pointer.replace(/\/legs\/.*$/, '')

/** What stands twice in the loads, once for each moment, is one row. */
function together(loads: readonly LoadView[]): LoadView[] {
  const rows = new Map<string, LoadView>()
  for (const load of loads) {
    const key = `${load.what}|${load.on}`
    const row = rows.get(key)
    if (row === undefined || (row.lifting !== undefined && row.down !== undefined)) rows.set(row ? load.id : key, load)
    else rows.set(key, { ...row, lifting: row.lifting ?? load.lifting, down: row.down ?? load.down })
  }
  return [...rows.values()]
}

/** Checks that this step governs or that belong to its lift. */
export function StepChecks({ ground }: { ground: GroundView }) {
  const { summary } = useShown()
  const lift = ground.steps.find((s) => s.step === ground.step)?.lift
  const own = (c: CheckView): boolean => {
    const names = c.id.split('/')
    return c.stage === 'ground' && (names.includes(ground.step ?? '') || (lift !== undefined && names.includes(lift)))
  }
  const checks = summary.checks.filter(own).sort(worstFirst)
  if (checks.length === 0) return null
  return (
    <section>
      <h2>Checks of this step</h2>
      <CheckTable checks={checks} caption={`Ground checks of ${ground.step}`} />
    </section>
  )
}
