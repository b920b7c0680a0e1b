import type { LiftView, NumberAt } from '../engine/protocol.ts'
import { figureOf, textOfUse } from '../parts/figures.ts'
import { type Opened, Opens, useOpened } from '../parts/opens.tsx'
import { VerdictMark, VerdictWord } from '../parts/verdict.tsx'
import { WorkingPanel } from '../parts/working.tsx'
import { useShown } from '../state.ts'
import type { LiftPageView, SumLine } from './pageView.ts'

/** The mass on the hook as a sum, against what the plan may use; every number opens its working beneath. */
export function MassSum({ lift, page }: { lift: LiftView; page: LiftPageView }) {
  const { system } = useShown()
  const opened = useOpened()
  const like = page.total.value ?? page.allowed.value ?? 1e4
  const { unit } = figureOf(like, 'kg', system)
  const rows = { opened, like }
  return (
    <section>
      <h2>Mass on the hook</h2>
      <table className="sum-table">
        <caption className="unseen">Mass on the hook of {lift.name}</caption>
        <thead>
          <tr>
            <th scope="col" className="what">
              What hangs
            </th>
            <th scope="col" className="num">
              {unit}
            </th>
            <th scope="col" className="num">
              ±
            </th>
            <th scope="col">Basis</th>
          </tr>
        </thead>
        <tbody>
          {page.lines.map((line, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: lines of a sum keep their order, and two may be called alike
            <Row key={i} line={line} {...rows} />
          ))}
          <Row line={page.total} {...rows} sum />
          {page.beyond.map((line) => (
            <Row key={line.label} line={line} {...rows} />
          ))}
          <Row line={page.allowed} {...rows} />
          <Use page={page} opened={opened} />
        </tbody>
      </table>
      {page.unexplained !== undefined && <Unexplained unexplained={page.unexplained} opened={opened} />}
      <WorkingBelow page={page} opened={opened} />
    </section>
  )
}

const sentence = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1)

const keyOf = (at: NumberAt): string => JSON.stringify(at)

interface RowProps {
  line: SumLine
  opened: Opened
  like: number
  sum?: boolean
}

function Row({ line, opened, like, sum = false }: RowProps) {
  const { system } = useShown()
  const { number, unit } = figureOf(line.value, 'kg', system, line.value === undefined ? undefined : like)
  const plusMinus = line.plusMinus === undefined ? '' : figureOf(line.plusMinus, 'kg', system, like).number
  return (
    <tr className={sum ? 'total strong' : line.inner ? 'inner' : undefined}>
      <th scope="row">{line.inner ? line.label : sentence(line.label)}</th>
      <td className="num">
        {line.at === undefined ? (
          number
        ) : (
          <Opens opened={opened} of={keyOf(line.at)} label={`${line.label}: ${number} ${unit}. Working`}>
            {number}
          </Opens>
        )}
      </td>
      <td className="num quiet">{plusMinus}</td>
      <td className="small quiet">{line.basis}</td>
    </tr>
  )
}

function Use({ page, opened }: { page: LiftPageView; opened: Opened }) {
  const { demand, allowed, hookCheck } = page
  if (hookCheck === undefined) return null
  const use = demand.value === undefined || allowed.value === undefined ? undefined : demand.value / allowed.value
  const fails = hookCheck.verdict === 'fail'
  return (
    <tr>
      <th scope="row" className="strong">
        Use
      </th>
      <td className={fails ? 'num fail strong' : 'num strong'}>
        <Opens opened={opened} of={keyOf({ check: hookCheck.id })} label={`Use ${textOfUse(use)}. Working`}>
          {use === undefined ? 'open' : textOfUse(use)}
        </Opens>
      </td>
      <td />
      <td>
        <VerdictWord verdict={hookCheck.verdict} />
      </td>
    </tr>
  )
}

function Unexplained({
  unexplained,
  opened,
}: {
  unexplained: NonNullable<LiftPageView['unexplained']>
  opened: Opened
}) {
  const { system } = useShown()
  const { number, unit } = figureOf(Math.abs(unexplained.value), 'kg', system)
  return (
    <p className="unexplained">
      <span className="verdict open">
        <VerdictMark verdict="open" />
      </span>{' '}
      <Opens opened={opened} of={keyOf(unexplained.at)} className="strong">
        {number} {unit}
      </Opens>{' '}
      {unexplained.value > 0 ? 'more' : 'less'} than expected was weighed, and nobody has explained it. It stays in
      until it is assigned; the piece is weighed again before it goes back.
    </p>
  )
}

function WorkingBelow({ page, opened }: { page: LiftPageView; opened: Opened }) {
  if (opened.key === undefined) return null
  return <WorkingPanel key={`${page.id}${opened.key}`} of={JSON.parse(opened.key)} onClose={opened.close} />
}
