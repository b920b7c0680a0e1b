import './along.css'
import type { ListedTick, Tick, TickedLine } from '@shieldwright/engine/model/intake/index.ts'
import type { Operation } from '@shieldwright/engine/working/patch.ts'
import { type ChangeEvent, useRef, useState } from 'react'
import { type FileDue, fileSent } from '../parts/fileSent.ts'
import { Scroll } from '../parts/scroll.tsx'
import { useShown } from '../state.ts'

/** What the host makes of a file of ticks. */
interface TicksView {
  patch: readonly Operation[]
  taken: readonly TickedLine[]
  same: readonly TickedLine[]
  listed: readonly ListedTick[]
  noted: readonly Tick[]
  issue: { revision?: string; scope: string; issued: string; isCurrent: boolean }
}

type Said = { ticks: TicksView; file: File } | { refused: string } | undefined

/** Ticks from the site: what each line becomes, what has changed since; kept as one edit like any other. */
export function BringTicks() {
  const { act, readOnly, trial } = useShown()
  const [date, setDate] = useState('')
  const [said, setSaid] = useState<Said>()
  const [also, setAlso] = useState<readonly string[]>([])
  const input = useRef<HTMLInputElement>(null)
  const read = async (file: File | undefined, taken: readonly string[]): Promise<void> => {
    if (file === undefined) return
    setAlso(taken)
    setSaid(await asked(file, date.trim(), taken))
    // the same file may be chosen again
    if (input.current !== null) input.current.value = ''
  }
  return (
    <section className="along" aria-labelledby="ticks-back">
      <h2 id="ticks-back">Brought back from the site</h2>
      <div className="choices">
        <label>
          File of ticks{' '}
          <input
            ref={input}
            type="file"
            accept=".json,application/json"
            disabled={readOnly !== undefined || trial !== undefined}
            onChange={(event: ChangeEvent<HTMLInputElement>) => void read(event.target.files?.[0], [])}
          />
        </label>
        <label>
          progress known up to{' '}
          <input value={date} placeholder="the data date" onChange={(e) => setDate(e.target.value)} />
        </label>
      </div>
      {said !== undefined && 'refused' in said && (
        <p className="small fail" role="alert">
          {said.refused}
        </p>
      )}
      {said !== undefined && 'ticks' in said && (
        <TicksReport
          ticks={said.ticks}
          name={said.file.name}
          onTake={(at) => void read(said.file, [...also, ...at])}
          onTry={() => {
            const { patch, taken, issue } = said.ticks
            act.tryOut(patch, `${taken.length} ticks from site, ${issue.scope}`)
            setSaid(undefined)
          }}
        />
      )}
    </section>
  )
}

const TICKS: FileDue = {
  most: 4 * 1024 * 1024,
  expected: 'a file of ticks that an on-site file gave out',
  example: 'ticks-2032-03-08-17-00.json',
}

async function asked(file: File, date: string, also: readonly string[]): Promise<Said> {
  const query = new URLSearchParams(date === '' ? {} : { dataDate: date })
  for (const at of also) query.append('also', at)
  const said = await fileSent<TicksView>(`/api/exchange/ticks?${query}`, file, TICKS)
  return 'refused' in said ? said : { ticks: said.answer, file }
}

interface ReportProps {
  ticks: TicksView
  name: string
  onTake: (at: readonly string[]) => void
  onTry: () => void
}

function TicksReport({ ticks: { taken, same, listed, noted, issue, patch }, name, onTake, onTry }: ReportProps) {
  const doubtful = listed.filter(({ canBeTaken }) => canBeTaken).map(({ at }) => at)
  return (
    <div role="status" aria-label="Report of the ticks">
      <p>
        {name}, {issue.scope}: {taken.length} lines become something, {same.length} are recorded already,{' '}
        <span className={listed.length > 0 ? 'fail strong' : undefined}>{listed.length} are not taken</span>,{' '}
        {noted.length} are notes of a sheet.{' '}
        {!issue.isCurrent &&
          `The file is of revision ${issue.revision ?? 'not stated'}; the project has changed since.`}
      </p>
      {taken.length > 0 && (
        <Ticks title="What the ticks record" lines={taken} last="Becomes" cell={({ becomes }) => becomes} />
      )}
      {listed.length > 0 && (
        <Ticks
          title="Not taken: to be looked at"
          lines={listed}
          last="Why"
          cell={({ why, canBeTaken, at }) => (
            <>
              {why}{' '}
              {canBeTaken && (
                <button type="button" aria-label={`Take ${at} all the same`} onClick={() => onTake([at])}>
                  Take it all the same
                </button>
              )}
            </>
          )}
        />
      )}
      {doubtful.length > 1 && (
        <button type="button" onClick={() => onTake(doubtful)}>
          Take all {doubtful.length} that can be taken
        </button>
      )}
      {noted.length > 0 && (
        <Ticks title="Ticked on sheets, kept in the file only" lines={noted} last="On" cell={() => 'a sheet'} />
      )}
      {patch.length > 0 && (
        <button type="button" onClick={onTry}>
          Show what it moves
        </button>
      )}
    </div>
  )
}

interface TicksProps<T> {
  title: string
  lines: readonly T[]
  last: string
  cell: (line: T) => React.ReactNode
}

function Ticks<T extends Tick>({ title, lines, last, cell }: TicksProps<T>) {
  return (
    <Scroll name={title}>
      <table>
        <caption>{title}</caption>
        <thead>
          <tr>
            <th scope="col">Line</th>
            <th scope="col">By</th>
            <th scope="col">On</th>
            <th scope="col">{last}</th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => (
            <tr key={line.at}>
              <th scope="row">
                <bdi>{lineName(line.at)}</bdi>
              </th>
              <td>
                <bdi>{line.by}</bdi>
              </td>
              <td>{line.on.slice(0, 16).replace('T', ' ')}</td>
              <td>{cell(line)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}

/** Of an address what a person calls it: `/services/W-1/joined/port` → `W-1, joined, port`. */
const lineName = (at: string): string =>
  at
    .replace(/^\/?(services|isolations|programme\/progress|joints|lifts|sheet)\//, '')
    .replace('/signed/', '/')
    .replace('/steps/', '/step ')
    .split('/')
    .join(', ')
