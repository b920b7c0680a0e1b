import { useMemo, useState } from 'react'
import { degrees, figureOf } from '../parts/figures.ts'
import { Opens, useOpened } from '../parts/opens.tsx'
import { Scroll } from '../parts/scroll.tsx'
import { WorkingPanel } from '../parts/working.tsx'
import { useShown } from '../state.ts'
import type { TurnPointView, TurnView } from './pageView.ts'
import { ShareDiagram } from './shareDiagram.tsx'
import { TurnedPose } from './turnedPose.tsx'

/** Standard gravity, m/s²: lines pull in force, hooks are rated in mass. */
const G = 9.80665

interface TurningProps {
  turn: TurnView
  lift: string
  checks: readonly string[]
}

/** Shares of both hooks over the turn, with a cursor: what each carries and leans at that angle, and how the piece stands. */
export function Turning({ turn, lift }: TurningProps) {
  const { course } = turn
  const [chosen, setChosen] = useState<number>()
  const tightest = useMemo(() => tightestOf(turn), [turn])
  const at = Math.min(chosen ?? tightest, course.length - 1)
  const point = course[at]
  if (point === undefined) {
    return (
      <section>
        <h2>Turning</h2>
        <p>Open: an input of the turn is missing, or no pair of pulls holds the piece.</p>
      </section>
    )
  }
  return (
    <section className="turning">
      <div className="titled">
        <h2>Turning: share on each hook</h2>
        <span className="small quiet">opens at the tightest angle</span>
      </div>
      <ShareDiagram turn={turn} at={at} onAt={setChosen} />
      <Reading point={point} turn={turn} at={at} onAt={setChosen} />
      <Critical turn={turn} onAt={setChosen} />
      <TurnedPose turn={turn} point={point} />
      <Stages lift={lift} />
    </section>
  )
}

interface CriticalProps {
  turn: TurnView
  onAt: (at: number) => void
}

/** What happens at each critical angle, and the ranges that nothing holds; an angle puts the cursor there. */
function Critical({ turn, onAt }: CriticalProps) {
  const { system } = useShown()
  const shown = (force: number | undefined): string => {
    if (force === undefined) return ''
    const { number, unit } = figureOf(force / G, 'kg', system)
    return `${number} ${unit}`
  }
  const go = (angle: number): void => onAt(nearestTo(turn, angle))
  if (turn.marks.length + turn.lost.length === 0) return null
  return (
    <table className="reading critical">
      <caption className="unseen">Critical angles of the turn</caption>
      <tbody>
        {turn.lost.map(({ from, to, restraint }) => (
          <tr key={`lost ${from}`}>
            <th scope="row" className="num">
              <button type="button" className="plain" onClick={() => go(from)}>
                {degrees(from)} to {degrees(to)}
              </button>
            </th>
            <td className="fail strong">nothing holds it; hold back with</td>
            <td className="num">{shown(restraint)}</td>
          </tr>
        ))}
        {turn.marks.map(({ event, angle, pull }) => (
          <tr key={`${event} ${angle}`}>
            <th scope="row" className="num">
              <button type="button" className="plain" onClick={() => go(angle)}>
                {degrees(angle)}
              </button>
            </th>
            <td>{event}</td>
            <td className="num">{shown(pull)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function nearestTo({ course }: TurnView, angle: number): number {
  const away = course.map((p) => Math.abs(p.angle - angle))
  return away.indexOf(Math.min(...away))
}

/** The angle at which a hook or a lean is nearest to its limit. */
function tightestOf({ course, limits, lean }: TurnView): number {
  const use = (value: number | undefined, limit: number | undefined): number =>
    value === undefined ? Number.POSITIVE_INFINITY : limit === undefined || limit <= 0 ? 0 : value / limit
  const tight = course.map((p) =>
    Math.max(use(p.main, limits.main), use(p.tail, limits.tail), use(p.mainLean, lean), use(p.tailLean, lean)),
  )
  return tight.indexOf(Math.max(...tight))
}

interface ReadingProps {
  point: TurnPointView
  turn: TurnView
  at: number
  onAt: (at: number) => void
}

function Reading({ point, turn, at, onAt }: ReadingProps) {
  const { system } = useShown()
  const like = Math.max(turn.limits.main ?? 0, turn.limits.tail ?? 0, 1) / G
  const mass = (force: number | undefined) =>
    figureOf(force === undefined ? undefined : force / G, 'kg', system, force === undefined ? undefined : like)
  const side = (name: 'main' | 'tail') => {
    const [pull, limit] = [mass(point[name]), mass(turn.limits[name])]
    const lean = name === 'main' ? point.mainLean : point.tailLean
    return { name, pull, limit, lean, over: (point[name] ?? 0) > (turn.limits[name] ?? Number.POSITIVE_INFINITY) }
  }
  const sides = [side('main'), side('tail')]
  const apart = figureOf(point.apart, 'm', system)
  const said = `${degrees(point.angle)}: ${sides.map((s) => `${s.name} ${s.pull.number} of ${s.limit.number} ${s.limit.unit}, leans ${degrees(s.lean)}`).join('; ')}`
  return (
    <>
      <input
        type="range"
        className="angle"
        min={0}
        max={turn.course.length - 1}
        value={at}
        aria-label="Angle of the turn"
        aria-valuetext={said}
        onChange={(e) => onAt(Number(e.target.value))}
      />
      <table className="reading">
        <caption>
          At <span className="strong">{degrees(point.angle)}</span>, hooks {apart.number} {apart.unit} apart
          {point.main === undefined && <span className="fail strong"> nothing holds the piece here</span>}
        </caption>
        <tbody>
          {sides.map((s) => (
            <tr key={s.name}>
              <th scope="row">{s.name}</th>
              <td className={s.over ? 'num fail strong' : 'num strong'}>{s.pull.number}</td>
              <td className="quiet">
                of {s.limit.number} <span className="unit">{s.limit.unit}</span>
              </td>
              <td className={turn.lean !== undefined && s.lean > turn.lean ? 'num fail strong' : 'num'}>
                leans {degrees(s.lean)}
              </td>
              <td className="small quiet">{turn.lean === undefined ? '' : `of ${degrees(turn.lean)}`}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  )
}

/** The stages that the sheet prints, with the working of each share. */
function Stages({ lift }: { lift: string }) {
  const { summary, system } = useShown()
  const opened = useOpened()
  const stages = summary.lifts.find((l) => l.id === lift)?.turning ?? []
  const like = Math.max(...stages.flatMap((t) => [t.main ?? 0, t.tail ?? 0]), 1) / G
  const { unit } = figureOf(like, 'kg', system)
  return (
    <details className="small">
      <summary>Stages as printed</summary>
      <Scroll name="Stages of the turn">
        <table>
          <caption className="unseen">Stages of the turn</caption>
          <thead>
            <tr>
              {['Angle', `Main, ${unit}`, `Tail, ${unit}`, 'Main leans', 'Tail leans'].map((head) => (
                <th key={head} scope="col" className="num">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {stages.map((t, i) => (
              <tr key={t.angle}>
                <th scope="row" className="num">
                  {degrees(t.angle)}
                </th>
                {(['main', 'tail'] as const).map((figure) => {
                  const force = t[figure]
                  const shown = figureOf(
                    force === undefined ? undefined : force / G,
                    'kg',
                    system,
                    force === undefined ? undefined : like,
                  )
                  const of = JSON.stringify({ lift, figure, of: i })
                  return (
                    <td key={figure} className="num">
                      <Opens
                        opened={opened}
                        of={of}
                        label={`${figure} at ${degrees(t.angle)}: ${shown.number}. Working`}
                      >
                        {shown.number}
                      </Opens>
                    </td>
                  )
                })}
                <td className="num">{degrees(t.mainLean)}</td>
                <td className="num">{degrees(t.tailLean)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      {opened.key !== undefined && <WorkingPanel key={opened.key} of={JSON.parse(opened.key)} onClose={opened.close} />}
    </details>
  )
}
