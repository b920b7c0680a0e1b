import './welcome.css'
import { useRemembered } from '../frame/remembered.ts'
import { dateText, figureOf } from '../parts/figures.ts'
import { Marks, SmallLine } from '../parts/verdict.tsx'
import { routeTo, useShown } from '../state.ts'
import { ledgerRows } from './ledgerRows.ts'

/** Said to whoever opens the project for the first time, made from the project itself: what it is, what is wrong, what to do next. */
export function Welcome() {
  const [seen, setSeen] = useRemembered('first', ['shown', 'hidden'], () => 'shown')
  if (seen === 'hidden') return null
  return (
    <section className="welcome" aria-label="What this is">
      <div>
        <p>
          <WhatItIs />
        </p>
        <p>
          <WhatIsWrong />
        </p>
      </div>
      <div>
        <Marks />
        <p className="small">
          <SmallLine from="mass" reaches="programme" /> The line above runs from the project’s figures to its paper. A
          finding rests on what stands at the ring and is felt as far as the bar; an edit draws its way on the line.
        </p>
        <p className="small">
          Any number that is underlined opens its working.{' '}
          <button type="button" className="link" onClick={() => setSeen('hidden')}>
            Hide this
          </button>{' '}
          <span className="quiet">
            <kbd>?</kbd> brings the marks back.
          </span>
        </p>
      </div>
    </section>
  )
}

function WhatItIs() {
  const { summary, system } = useShown()
  const { bore, depth, parts, heaviest } = summary.overview
  const show = (value: number | undefined, unit: 'm' | 'kg'): string => {
    const { number, unit: label } = figureOf(value, unit, system)
    return `${number} ${label}`
  }
  const lifts = summary.lifts.length
  return (
    <>
      <span className="strong">{summary.invented ? 'An invented project: ' : ''}</span>a stopped tunnel boring machine
      of {parts} kinds of parts is taken apart{' '}
      {bore === undefined || depth === undefined
        ? ''
        : `in a shaft ${show(bore, 'm')} wide and ${show(depth, 'm')} deep `}
      into {summary.pieces.length} pieces, mended, and put back, in {lifts} {lifts === 1 ? 'lift' : 'lifts'} and turns
      {heaviest === undefined ? (
        ''
      ) : (
        <>
          ; the heaviest is <a href={routeTo('lift', heaviest.lift)}>{heaviest.name}</a>, {show(heaviest.load, 'kg')} on
          the hook
        </>
      )}
      . {summary.restart === undefined ? '' : `The plan restarts the drive on ${dateText(summary.restart)}.`}
    </>
  )
}

function WhatIsWrong() {
  const { summary } = useShown()
  const rows = ledgerRows(summary.checks.filter((c) => c.verdict === 'fail'))
  const [worst] = rows
  if (worst === undefined) {
    const open = summary.checks.filter((c) => c.verdict === 'open').length
    return <>Nothing fails. {open > 0 && `${open} checks wait for a figure or a decision: they stand in the ledger.`}</>
  }
  const { check, at } = worst
  const fails = summary.checks.filter((c) => c.verdict === 'fail').length
  return (
    <>
      <span className="fail strong">
        {fails} of {summary.checks.length} checks fail.
      </span>{' '}
      First to stop work: {check.subjectName}, {check.title.toLowerCase()}
      {at === undefined ? '' : `, on ${dateText(at)}`}. <a href={routeTo('project', check.id)}>Open its working</a> and
      walk down to the figure it rests on; change that figure and see, before anything is kept, what else moves.
    </>
  )
}
