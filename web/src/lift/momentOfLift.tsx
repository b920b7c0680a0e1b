import { atInstant, instantOf, instantText } from '../campaign/instant.ts'
import type { TimesView } from '../campaign/view.ts'
import { useCommon } from '../shared.ts'
import type { WayView } from './pageView.ts'

/** When a lift goes on in the plan, s of its clock. */
export interface LiftSpan {
  begins: number
  ends: number
}

/** The span of a lift between two stops of the order; undefined where the plan gives it no time. */
export function liftSpan({ stops }: TimesView, [first, last]: readonly [number, number]): LiftSpan | undefined {
  const [from, to] = [stops[first + 1], stops[last]]
  return from === undefined || to === undefined || to.reached <= from.begins
    ? undefined
    : { begins: from.begins, ends: to.reached }
}

/**
 * The stage that goes on in a moment, and how long it has gone on, s: the time since the load was taken stands to that of all
 * stages as the moment to the span of the lift in the plan.
 */
export function stageNow({ stages }: WayView, share: number): number | undefined {
  const whole = stages.at(-1)?.until
  if (whole === undefined || share < 0 || share > 1) return undefined
  const index = stages.findIndex(({ until }) => until !== undefined && share * whole <= until)
  return index < 0 ? undefined : index
}

/** The instant of all views within this lift: a slider over its span in the plan, and where the instant lies else. */
export function MomentOfLift({ times, span, way }: { times: TimesView; span: LiftSpan; way: WayView }) {
  const common = useCommon()
  const { begins, ends } = span
  const now = instantOf(common, times)
  const stage = way.stages[stageNow(way, shareOf(span, now)) ?? -1]
  const text = instantText(now, times)
  const words = now < begins ? `${text}, before this lift` : now > ends ? `${text}, after this lift` : text
  return (
    <div className="moment-of-lift small">
      <label>
        The instant of all views
        <input
          type="range"
          min={0}
          max={1}
          step={0.01}
          value={Math.min(1, Math.max(0, shareOf(span, now)))}
          aria-valuetext={stage === undefined ? words : `${words}, ${stage.name}`}
          onChange={(e) => common.set(atInstant(times, begins + Number(e.target.value) * (ends - begins)))}
        />
      </label>
      <p className="instant">{words}</p>
      <p className="quiet">
        In the plan from {instantText(begins, times)} to {instantText(ends, times)}
      </p>
    </div>
  )
}

export const shareOf = ({ begins, ends }: LiftSpan, now: number): number => (now - begins) / (ends - begins)
