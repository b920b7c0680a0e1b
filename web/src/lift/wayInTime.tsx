import { instantOf, useTimes } from '../campaign/instant.ts'
import { figureOf } from '../parts/figures.ts'
import { Opens, useOpened } from '../parts/opens.tsx'
import { WorkingPanel } from '../parts/working.tsx'
import { useCommon } from '../shared.ts'
import { useShown } from '../state.ts'
import { liftSpan, MomentOfLift, shareOf, stageNow } from './momentOfLift.tsx'
import type { LiftPageView, StageView, TimeAt, WayView } from './pageView.ts'

type Opened = ReturnType<typeof useOpened>

/** The way in time: stages, where there is no going back, and where the piece can wait. */
export function WayInTime({ way, span }: { way: WayView; span: LiftPageView['span'] }) {
  const opened = useOpened()
  const times = useTimes()
  const common = useCommon()
  const planned = times === undefined || span === undefined ? undefined : liftSpan(times, span)
  const now =
    times === undefined || planned === undefined ? undefined : stageNow(way, shareOf(planned, instantOf(common, times)))
  if (way.stages.length === 0) return null
  return (
    <section>
      <div className="titled">
        <h2>The way in time</h2>
        <span className="small quiet">from the load being taken</span>
      </div>
      <table>
        <caption className="unseen">Stages of the lift with their times, and how far each is from shelter</caption>
        <thead>
          <tr>
            <th scope="col">stage</th>
            <th scope="col" className="num">
              takes
            </th>
            <th scope="col" className="num">
              until
            </th>
            <th scope="col" className="num">
              level
            </th>
            <th scope="col" className="num">
              out of the wind in
            </th>
          </tr>
        </thead>
        <tbody>
          {way.stages.map((stage, i) => (
            <Stage
              // biome-ignore lint/suspicious/noArrayIndexKey: stages have no name of their own, and their order is what they are
              key={i}
              stage={stage}
              number={i + 1}
              last={way.noReturn.stage === i}
              now={now === i}
              opened={opened}
            />
          ))}
        </tbody>
      </table>
      {times !== undefined && planned !== undefined && <MomentOfLift times={times} span={planned} way={way} />}
      <p className="small">
        <span className="strong">No return</span> after{' '}
        <Time time={way.noReturn} words="Point of no return" opened={opened} />
        {way.noReturn.stage === undefined ? '' : `, in stage ${way.noReturn.stage + 1}`}
        {way.noReturn.stated ? ', as the project says' : ''}; from there to landed{' '}
        <Time time={way.window} words="Wind window" opened={opened} />.
      </p>
      <p className="small quiet">
        It can wait: {way.positions.map(positionText).join('; ')}. Power or a hoist unit fails: {way.holds}; safe at the
        latest after <Time time={worst(way, 'power')} words="After a failure of power" opened={opened} /> and{' '}
        <Time time={worst(way, 'unit')} words="After a failed jack or winch" opened={opened} />.
      </p>
      {opened.key !== undefined && <WorkingPanel key={opened.key} of={JSON.parse(opened.key)} onClose={opened.close} />}
    </section>
  )
}

interface StageOf {
  stage: StageView
  number: number
  last: boolean
  /** It goes on at the instant of all views. */
  now: boolean
  opened: Opened
}

function Stage({ stage, number, last, now, opened }: StageOf) {
  const { system } = useShown()
  const level = figureOf(stage.level, 'm', system, stage.level === undefined ? undefined : 10)
  return (
    <tr className={now ? 'here' : undefined} aria-current={now ? 'time' : undefined}>
      <th scope="row">
        {number}. {stage.name}
        {now && <span className="small at-instant"> now</span>}
        {last && <span className="small quiet"> no return</span>}
      </th>
      <td className="num">
        <Time time={stage.takes} words={`Stage ${number}`} opened={opened} />
      </td>
      <td className="num">{minutesText(stage.until)}</td>
      <td className="num">
        {level.number} <span className="unit">{level.unit}</span>
      </td>
      <td className="num">
        <Time time={stage.shelter} words={`Stage ${number}, out of the wind`} opened={opened} />
        <div className="small quiet">{stage.shelter.position}</div>
      </td>
    </tr>
  )
}

const Time = ({ time, words, opened }: { time: TimeAt; words: string; opened: Opened }) => (
  <Opens opened={opened} of={JSON.stringify(time.at)} label={`${words}: ${minutesText(time.value)}. Working`}>
    {minutesText(time.value)}
  </Opens>
)

/** Hours and whole minutes: stages of a crane take a few of them. */
function minutesText(seconds: number | undefined): string {
  if (seconds === undefined) return 'open'
  const minutes = Math.round(seconds / 60)
  if (minutes < 1) return seconds > 0 ? 'under 1 min' : '0 min'
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60]
  return hours === 0 ? `${rest} min` : `${hours} h ${String(rest).padStart(2, '0')} min`
}

const positionText = ({ name, from, to }: WayView['positions'][number]): string =>
  from === to ? name : `${name} (${minutesText(from)} to ${minutesText(to)})`

/** The stage from which safety is the farthest; one that is not known before any that is. */
function worst({ stages }: WayView, failure: 'power' | 'unit'): TimeAt {
  const all = stages.map((s) => s[failure])
  return all.reduce((most, one) => ((one.value ?? Infinity) > (most.value ?? Infinity) ? one : most))
}
