import { sameContent } from '@shieldwright/engine/working/memory.ts'
import { at } from '@shieldwright/engine/working/pointer.ts'
import { useEffect, useState } from 'react'
import type { ActivityView } from '../engine/protocol.ts'
import { dateText } from '../parts/figures.ts'
import { Scroll } from '../parts/scroll.tsx'
import { useSelected } from '../shared.ts'
import { type Trial, useShown } from '../state.ts'
import { dateIn, slipPatch, type TypedProgramme } from './slip.ts'

const DAY = 86_400_000

interface Line {
  id: string
  what: string
  activity: ActivityView
  /** Start of the first activity that cannot do without it. */
  needed: number | undefined
  neededBy: string
}

/** What is ordered: when the plan has it on site, when it is needed, and a place to say that it comes on another day. */
export function Deliveries() {
  const { document, summary } = useShown()
  const lines = linesOf(document, summary.activities, summary.checks)
  if (lines.length === 0) return null
  return (
    <section>
      <div className="titled">
        <h2>Deliveries</h2>
        <span className="small quiet">
          promised for another day? type it, <kbd>↵</kbd> shows what it moves · the least first
        </span>
      </div>
      <Scroll name="Deliveries">
        <table>
          <caption className="unseen">Deliveries with the days to spare before each is needed</caption>
          <thead>
            <tr>
              <th scope="col">Id</th>
              <th scope="col">What</th>
              <th scope="col">Ordered</th>
              <th scope="col">On site in the plan</th>
              <th scope="col">First needed</th>
              <th scope="col" className="num">
                Days spare
              </th>
              <th scope="col">Promised for</th>
            </tr>
          </thead>
          <tbody>
            {lines.map((line) => (
              <DeliveryRow key={line.id} line={line} />
            ))}
          </tbody>
        </table>
      </Scroll>
    </section>
  )
}

function DeliveryRow({ line }: { line: Line }) {
  const { trial, document } = useShown()
  const { selected, set } = useSelected()
  const { id, what, activity, needed, neededBy } = line
  const pointer = `/programme/deliveries/${id}`
  const spare = needed === undefined ? undefined : Math.floor((needed - activity.finish) / DAY)
  const onTrial = isOnTrial(trial, document, activity.id)
  const isSelected = selected === pointer || selected === `/programme/activities/${activity.id}`
  return (
    <tr className={isSelected || onTrial ? 'chosen here' : undefined}>
      <td className="quiet">{id}</td>
      <th scope="row">
        <button type="button" className="link" onClick={() => set({ selected: pointer })}>
          {what}
        </button>
      </th>
      <td className="small">{dateText(activity.start)}</td>
      <td className="small">{dateText(activity.finish)}</td>
      <td className="small">
        {needed === undefined ? '' : dateText(needed)} <span className="quiet">{neededBy}</span>
      </td>
      <td className={`num ${spare !== undefined && spare < 0 ? 'fail strong' : ''}`}>{spare ?? ''}</td>
      <PromiseCell line={line} />
    </tr>
  )
}

function PromiseCell({ line: { what, activity } }: { line: Line }) {
  const { document, act, trial, readOnly } = useShown()
  const programme = at(document, '/programme') as TypedProgramme
  const kept = programme.activities?.[activity.id]?.finishBy ?? ''
  const [text, setText] = useState(kept)
  const [said, setSaid] = useState<string>()
  const onTrial = isOnTrial(trial, document, activity.id)
  useEffect(() => {
    if (!onTrial) setText(kept)
  }, [kept, onTrial])
  const preview = (): void => {
    if (text.trim() === kept) return
    const promised = dateIn(text)
    const patch =
      promised === undefined
        ? 'a date is due, such as 2033-02-14 or 14 Feb 2033'
        : slipPatch(programme, activity.id, activity.finish, promised)
    setSaid(typeof patch === 'string' ? patch : undefined)
    if (typeof patch === 'string') return
    const slip = `${what}: promised for ${dateText(promised, false)}, was ${dateText(activity.finish, false)} in the plan`
    act.tryOut(patch, slip, `/programme/activities/${activity.id}`)
  }
  const onKey = (event: React.KeyboardEvent): void => {
    if (event.key === 'Enter' && !event.ctrlKey) preview()
    else if (event.key === 'Escape' && !onTrial) {
      setText(kept)
      setSaid(undefined)
    } else return
    event.preventDefault()
    event.stopPropagation()
  }
  return (
    <td className={['cell', onTrial ? 'changed' : '', said === undefined ? '' : 'refused'].join(' ')}>
      <input
        value={text}
        aria-label={`${what}, promised for`}
        aria-invalid={said !== undefined}
        placeholder="day, month, year"
        readOnly={readOnly !== undefined}
        onChange={(e) => setText(e.target.value)}
        onKeyDown={onKey}
      />
      {said !== undefined && (
        <div className="small fail" role="alert">
          {said}
        </div>
      )}
    </td>
  )
}

/** The durations of a delivery are others in what is being looked at. */
function isOnTrial(trial: Trial | undefined, document: unknown, activity: string): boolean {
  const path = `/programme/activities/${activity}/days`
  return trial !== undefined && !sameContent(at(trial.document, path), at(document, path))
}

function linesOf(
  document: unknown,
  activities: readonly ActivityView[],
  checks: readonly { kind: string; subject: string; capacity: number | undefined; assumptions: readonly string[] }[],
): Line[] {
  const programme = (at(document, '/programme') ?? {}) as TypedProgramme
  const byId = new Map(activities.map((a) => [a.id, a]))
  const first = new Map(
    checks
      .filter((c) => c.kind === 'programme.delivery.in-time')
      .map((c) => [c.subject, /first needed by ([^,]+),/.exec(c.assumptions[0] ?? '')?.[1]]),
  )
  return Object.entries(programme.deliveries ?? {})
    .flatMap(([id, { what, activity }]): Line[] => {
      const own = byId.get(activity)
      const needing = byId.get(first.get(id) ?? '')
      return own === undefined
        ? []
        : [{ id, what, activity: own, needed: needing?.start, neededBy: needing?.name ?? '' }]
    })
    .sort((a, b) => spareOf(a) - spareOf(b))
}

const spareOf = ({ needed, activity }: Line): number => (needed ?? Number.POSITIVE_INFINITY) - activity.finish
