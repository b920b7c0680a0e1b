import { useRef, useState } from 'react'
import { figureOf, hoursText } from '../parts/figures.ts'
import { Scroll } from '../parts/scroll.tsx'
import { VerdictWord } from '../parts/verdict.tsx'
import { useCommonStore, useSelected } from '../shared.ts'
import { routeTo, useShown } from '../state.ts'
import { orderWords, stepMoved } from './orderEdits.ts'
import type { OrderStepView, OrderView } from './orderView.ts'
import { StepDetail } from './stepDetail.tsx'

/** The order as a table to work on: steps are moved up and down, opened, and changed; nothing is kept before it is seen. */
export function OrderTable({ order }: { order: OrderView | undefined }) {
  const { system, trial } = useShown()
  const [opened, setOpened] = useState<string>()
  if (order === undefined) return null
  const failing = order.steps.filter((s) => s.failures.length > 0)
  return (
    <section>
      <div className="titled">
        <h2>Order of taking apart</h2>
        <span className="small quiet">
          {order.adopted ? 'adopted' : 'none adopted: a quick default stands in'} · verified step by step against
          everything that is still there · <kbd>Alt ↑</kbd> <kbd>Alt ↓</kbd> move a step
        </span>
      </div>
      {order.steps.length === 0 && (
        <p>
          No step is planned yet. An order needs pieces to take away: they are made under <a href="#model">model</a>.
        </p>
      )}
      {trial !== undefined && <TrialSays failing={failing} />}
      <Scroll name="Order of taking apart">
        <table className="order">
          <caption className="unseen">Steps of the order</caption>
          <thead>
            <tr>
              <th scope="col" className="num">
                Step
              </th>
              <th scope="col">
                <span className="unseen">Move</span>
              </th>
              <th scope="col">Piece</th>
              <th scope="col" className="num">
                Parts
              </th>
              <th scope="col" className="num">
                Joints
              </th>
              <th scope="col" className="num">
                Services
              </th>
              <th scope="col" className="num">
                To free it
              </th>
              <th scope="col" className="num">
                Nearest, {figureOf(1, 'm', system).unit}
              </th>
              <th scope="col">To what</th>
              <th scope="col">Lift</th>
              <th scope="col">Finding</th>
            </tr>
          </thead>
          <tbody>
            {order.steps.map((step, i) => (
              <StepRows
                key={step.step}
                step={step}
                index={i}
                last={order.steps.length - 1}
                open={opened === step.step}
                onOpen={() => setOpened(opened === step.step ? undefined : step.step)}
              />
            ))}
          </tbody>
        </table>
      </Scroll>
    </section>
  )
}

/** What the order that is being looked at comes to, before it is kept. */
function TrialSays({ failing }: { failing: readonly OrderStepView[] }) {
  return (
    <div className="order-says" role="status">
      {failing.length === 0 ? (
        <span>
          As it is looked at now: <span className="strong">every step is free.</span>
        </span>
      ) : (
        <>
          <VerdictWord verdict="fail" /> As it is looked at now,{' '}
          {failing.length === 1 ? 'one step cannot be done' : `${failing.length} steps cannot be done`}:{' '}
          {failing.map((s) => (
            <span key={s.step} className="each">
              <span className="strong">{s.name}</span> is blocked by{' '}
              {[...new Set(s.failures.flatMap((f) => f.blockers.map((b) => `${b.name} (${b.id})`)))].join(', ')}
            </span>
          ))}
        </>
      )}
    </div>
  )
}

interface RowProps {
  step: OrderStepView
  index: number
  last: number
  open: boolean
  onOpen: () => void
}

function StepRows({ step, index, last, open, onOpen }: RowProps) {
  const { document, trial, act, readOnly, system, summary } = useShown()
  const turns = summary.lifts.some((l) => l.id === step.lift && l.kind === 'turn')
  const { selected, set } = useSelected()
  const row = useRef<HTMLTableRowElement>(null)
  const pointer = `/pieces/${step.piece}`
  const move = (by: number, from: HTMLElement): void => {
    const shown = trial?.document ?? document
    const patch = stepMoved(shown, step.step, by)
    if (patch.length === 0) return
    act.tryOut(patch, orderWords(document, patch, step.step, step.name))
    requestAnimationFrame(() => from.focus())
  }
  const onKey = (event: React.KeyboardEvent<HTMLElement>): void => {
    if (!event.altKey || (event.key !== 'ArrowUp' && event.key !== 'ArrowDown')) return
    event.preventDefault()
    event.stopPropagation()
    if (readOnly === undefined) move(event.key === 'ArrowUp' ? -1 : 1, event.target as HTMLElement)
  }
  return (
    <>
      <tr
        ref={row}
        className={[open ? 'chosen' : '', selected === pointer ? 'here' : '', 'step'].join(' ')}
        onKeyDown={onKey}
      >
        <td className="num">{index + 1}</td>
        <td className="moves">
          <button
            type="button"
            disabled={index === 0 || readOnly !== undefined}
            aria-label={`${step.name}: a step earlier`}
            onClick={(e) => move(-1, e.currentTarget)}
          >
            ↑
          </button>
          <button
            type="button"
            disabled={index === last || readOnly !== undefined}
            aria-label={`${step.name}: a step later`}
            onClick={(e) => move(1, e.currentTarget)}
          >
            ↓
          </button>
        </td>
        <th scope="row">
          <button
            type="button"
            className="opens"
            aria-expanded={open}
            onClick={() => {
              onOpen()
              set({ selected: pointer, along: index })
            }}
          >
            {step.name}
          </button>
          {step.stays && <span className="small quiet"> put aside</span>}
          {turns && <span className="small quiet"> turned</span>}
        </th>
        <td className="num">{step.parts.length}</td>
        <td className="num">{step.joints.length}</td>
        <td className="num">{step.services.length}</td>
        <td className="num">{step.off === 0 ? '' : hoursText(step.off)}</td>
        <td className="num">{step.gap === undefined ? '' : figureOf(step.gap, 'm', system, 10).number}</td>
        <td className="small">{step.gapTo}</td>
        <td className="small">{step.lift === undefined ? '' : <a href={routeTo('lift', step.lift)}>{step.lift}</a>}</td>
        <td>
          <Finding step={step} index={index} />
        </td>
      </tr>
      {open && (
        <tr>
          <td colSpan={11} className="opened">
            <StepDetail step={step} index={index} />
          </td>
        </tr>
      )}
    </>
  )
}

function Finding({ step, index }: { step: OrderStepView; index: number }) {
  const [first] = step.failures
  const [other] = step.failing
  if (first === undefined && other !== undefined)
    return (
      <>
        <VerdictWord verdict="fail" /> <span className="fail">its way is free, but not: {other.title}</span>
      </>
    )
  if (first === undefined)
    return (
      <>
        <span className="quiet">free</span> {step.verdict === 'open' && <VerdictWord verdict="open" />}
      </>
    )
  const names = [...new Set(step.failures.flatMap((f) => f.blockers.map((b) => b.name)))]
  return (
    <>
      <VerdictWord verdict="fail" />{' '}
      <span className="fail">
        blocked by {names.slice(0, 3).join(', ')}
        {names.length > 3 && ` and ${names.length - 3} more`}
        {first.towards !== undefined && `, going ${first.towards}`}
      </span>{' '}
      <At3d index={index} part={first.blockers[0]?.id} />
    </>
  )
}

/** The same step in space, with what is in its way selected. */
export function At3d({ index, part }: { index: number; part: string | undefined }) {
  const { set } = useCommonStore()
  return (
    <a
      className="small"
      href={routeTo('model')}
      onClick={() => set({ along: index + 0.5, selected: part === undefined ? undefined : `/parts/${part}` })}
    >
      in 3D
    </a>
  )
}
