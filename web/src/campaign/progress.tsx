import { pointerOf } from '@shieldwright/engine/working/pointer.ts'
import type { ProgressView } from '../engine/protocol.ts'
import { dateText } from '../parts/figures.ts'
import { Scroll } from '../parts/scroll.tsx'
import { useSelected } from '../shared.ts'
import { useShown } from '../state.ts'
import { BringIn } from './bringIn.tsx'
import { dayAndTime, endHourOf, hourOf } from './clock.ts'
import './progress.css'

const DAY = 86_400

/** Where the work stands: what is done, how late the restart is and why, the weeks ahead; progress is brought in here. */
export function Progress() {
  const { summary } = useShown()
  const { progress } = summary
  if (progress === undefined) return null
  return (
    <section className="progress">
      <div className="titled">
        <h2>Progress</h2>
        <span className="small quiet">{standing(progress)}</span>
      </div>
      <Slip progress={progress} />
      <OutOfSequence progress={progress} />
      <BringIn />
      <Shift progress={progress} />
      <Ahead progress={progress} />
    </section>
  )
}

function standing({ dataDate, done, underWay, of }: ProgressView): string {
  if (dataDate === undefined) return 'no data date yet: everything is a forecast'
  return `as of ${dayAndTime(dataDate)} UTC: ${done} of ${of} activities done, ${underWay} under way`
}

/** Slip of the restart against the baseline, cause by cause along what drives it; or the means to keep a baseline. */
function Slip({ progress: { slip, delays } }: { progress: ProgressView }) {
  const name = useNames()
  if (slip === undefined)
    return (
      <p className="small">
        No baseline is kept, so that no slip can be told. <KeepBaseline />
      </p>
    )
  const { baseline, made, restartWas, seconds, causes } = slip
  return (
    <>
      <p>
        {seconds === undefined || restartWas === undefined
          ? `The baseline “${baseline}” of ${made} has no restart.`
          : `Restart ${slipText(seconds)} against “${baseline}” of ${made}, which had it on ${dateText(restartWas)}. `}
        <KeepBaseline />
      </p>
      {causes.length > 0 && (
        <Scroll name="Causes of the slip">
          <table>
            <caption className="unseen">What makes up the slip, along the path that drives the restart</caption>
            <thead>
              <tr>
                <th scope="col">On the driving path</th>
                <th scope="col">What happened</th>
                <th scope="col" className="num">
                  Days
                </th>
                <th scope="col">Delay on record</th>
              </tr>
            </thead>
            <tbody>
              {causes.map(({ activity, kind, seconds: by, delays: named }) => (
                <tr key={`${activity} ${kind}`}>
                  <th scope="row">{name(activity)}</th>
                  <td className="small">{kind}</td>
                  <td className={`num ${by > 0 ? 'fail' : ''}`}>{signed(by)}</td>
                  <td className="small">{named.join(', ')}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </Scroll>
      )}
      {delays.length > 0 && (
        <ul className="small" aria-label="Delays on record">
          {delays.map(({ id, what, cause, from, to }) => (
            <li key={id}>
              {what}, {from} to {to ?? 'now'}: {cause}
            </li>
          ))}
        </ul>
      )}
    </>
  )
}

const slipText = (seconds: number): string => {
  const days = Math.abs(seconds / DAY).toFixed(1)
  return Math.abs(seconds) < 60 ? 'as planned' : `${days} days ${seconds > 0 ? 'late' : 'early'}`
}

const signed = (seconds: number): string => `${seconds > 0 ? '+' : '−'}${Math.abs(seconds / DAY).toFixed(1)}`

/** The plan as it stands, kept as a baseline named for its day: an edit like any other. */
function KeepBaseline() {
  const { summary, document, act, readOnly, trial } = useShown()
  const keep = (): void => {
    const { programme } = document as { programme?: { baselines?: Readonly<Record<string, unknown>> } }
    const made = new Date().toISOString().slice(0, 10)
    const id = freeId(`made-${made}`, programme?.baselines ?? {})
    const value = {
      name: `Plan kept on ${made}`,
      made,
      ...(summary.restart === undefined ? {} : { restart: instant(summary.restart) }),
      activities: Object.fromEntries(summary.activities.map((a) => [a.id, [instant(a.start), instant(a.finish)]])),
    }
    const whole = programme?.baselines === undefined
    const path = whole ? '/programme/baselines' : pointerOf('programme', 'baselines', id)
    act.tryOut(
      [{ op: 'add', path, value: whole ? { [id]: value } : value }],
      'the plan as it stands kept as a baseline',
    )
  }
  return (
    <button type="button" onClick={keep} disabled={readOnly !== undefined || trial !== undefined}>
      Keep the plan as a baseline
    </button>
  )
}

const instant = (ms: number): string => `${new Date(Math.round(ms / 1000) * 1000).toISOString().slice(0, 19)}Z`

function freeId(wanted: string, taken: Readonly<Record<string, unknown>>): string {
  for (let n = 1; ; n++) {
    const id = n === 1 ? wanted : `${wanted}-${n}`
    if (taken[id] === undefined) return id
  }
}

function OutOfSequence({ progress: { outOfSequence, lost } }: { progress: ProgressView }) {
  const name = useNames()
  if (outOfSequence.length + lost.length === 0) return null
  return (
    <ul className="small" aria-label="Progress that does not fit">
      {outOfSequence.map(({ activity, text }) => (
        <li key={`${activity} ${text}`}>
          {name(activity)}: {text}
        </li>
      ))}
      {lost.map((id) => (
        <li key={id}>Progress of “{id}” is kept, but no activity has this id any more.</li>
      ))}
    </ul>
  )
}

/** What runs in the shift under way, by its hours, calendar by calendar. */
function Shift({ progress: { shifts, aheadFrom } }: { progress: ProgressView }) {
  const { set } = useSelected()
  if (shifts.length === 0) return null
  return (
    <>
      <h3>The shift at {dayAndTime(aheadFrom)} UTC</h3>
      <Scroll name="The shift">
        <table>
          <caption className="unseen">What runs in the shift under way, by its hours</caption>
          <thead>
            <tr>
              <th scope="col">Activity</th>
              <th scope="col">From</th>
              <th scope="col">Until</th>
              <th scope="col">Then</th>
              <th scope="col">Hold point</th>
            </tr>
          </thead>
          {shifts.map(({ calendar, start, end, isUnderWay, work }) => (
            <tbody key={calendar}>
              <tr>
                <th scope="rowgroup" colSpan={5} className="quiet">
                  {calendar}: {isUnderWay ? '' : 'next, '}
                  {dayAndTime(start)} to {endHourOf(end)}
                </th>
              </tr>
              {work.map(({ id, name, from, until, finish, drives, holdPoint }) => (
                <tr key={id}>
                  <th scope="row">
                    <button
                      type="button"
                      className="link"
                      onClick={() => set({ selected: `/programme/activities/${id}` })}
                    >
                      {name}
                    </button>
                  </th>
                  <td className="small">{hourOf(from)}</td>
                  <td className="small">{endHourOf(until)}</td>
                  <td className="small">
                    {finish <= end ? 'ends' : 'goes on'}
                    {drives ? ', drives' : ''}
                  </td>
                  <td className="small">{holdPoint === undefined ? '' : `hold: ${holdPoint}`}</td>
                </tr>
              ))}
            </tbody>
          ))}
        </table>
      </Scroll>
    </>
  )
}

/** The day's work and the three weeks after it, by start. */
function Ahead({ progress: { ahead, aheadFrom, dataDate } }: { progress: ProgressView }) {
  const { set } = useSelected()
  const today = ahead.filter((a) => a.today)
  const later = ahead.filter((a) => !a.today)
  const from = dataDate === undefined ? 'the day that the project stands at' : 'the data date'
  if (ahead.length === 0) return <p className="small quiet">Nothing is under way in the three weeks from {from}.</p>
  const group = (title: string, entries: typeof ahead) => (
    <tbody>
      <tr>
        <th scope="rowgroup" colSpan={5} className="quiet">
          {title}
        </th>
      </tr>
      {entries.map(({ id, name, state, start, finish, drives, float, holdPoint }) => (
        <tr key={id}>
          <th scope="row">
            <button type="button" className="link" onClick={() => set({ selected: `/programme/activities/${id}` })}>
              {name}
            </button>
          </th>
          <td className="small">{state === 'goes on' ? 'goes on' : dayAndTime(start)}</td>
          <td className="small">{dayAndTime(finish)}</td>
          <td className={`num ${drives ? 'strong' : ''}`}>{drives ? 'drives' : `${(float / DAY).toFixed(1)} d`}</td>
          <td className="small">{holdPoint === undefined ? '' : `hold: ${holdPoint}`}</td>
        </tr>
      ))}
    </tbody>
  )
  return (
    <>
      <h3>Three weeks from {dayAndTime(aheadFrom)} UTC</h3>
      <Scroll name="Look-ahead">
        <table>
          <caption className="unseen">What is under way or starts, by start</caption>
          <thead>
            <tr>
              <th scope="col">Activity</th>
              <th scope="col">Starts</th>
              <th scope="col">Ends</th>
              <th scope="col" className="num">
                Float
              </th>
              <th scope="col">Hold point</th>
            </tr>
          </thead>
          {today.length > 0 && group('Within the day', today)}
          {later.length > 0 && group('Later in the three weeks', later)}
        </table>
      </Scroll>
    </>
  )
}

function useNames(): (id: string) => string {
  const { summary } = useShown()
  return (id) => summary.activities.find((a) => a.id === id)?.name ?? id
}
