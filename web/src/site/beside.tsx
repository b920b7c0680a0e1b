import type { BesidePicture, FigureTable } from '@shieldwright/engine/report/site/index.ts'
import { useState } from 'react'
import { CheckTable, worstFirst } from '../parts/checks.tsx'
import { Scroll } from '../parts/scroll.tsx'
import { useShown } from '../state.ts'
import { Pick, useChosen } from './rows.tsx'

/** What stands beside a picture of the shaft: the checks that judge it with their working, its figures, how to read it. */
export function Beside({ of: { table, checks, notes }, title }: { of: BesidePicture; title: string }) {
  const { summary } = useShown()
  const own = new Set(checks)
  const judged = summary.checks.filter((c) => own.has(c.id)).sort(worstFirst)
  return (
    <div className="beside">
      {judged.length > 0 && <CheckTable checks={judged} caption={`Checks: ${title}`} withSubject={false} most={8} />}
      {table !== undefined && <Figures table={table} />}
      {notes.length > 0 && (
        <details className="small quiet">
          <summary>How to read it</summary>
          {notes.map((note) => (
            <p key={note}>{note}</p>
          ))}
        </details>
      )}
    </div>
  )
}

/** Figures as the engine words them; a row about something of the project selects it in the picture. */
const MOST = 12

function Figures({ table: { title, aside, columns, rows } }: { table: FigureTable }) {
  const [all, setAll] = useState(false)
  return (
    <>
      <p className="small quiet">{aside}</p>
      <Scroll name={`Figures: ${title}`}>
        <table>
          <caption className="unseen">{title}</caption>
          <thead>
            <tr>
              {columns.map((c) => (
                <th key={c.title} scope="col" className={c.align === 'end' ? 'num' : undefined}>
                  {c.title === '' ? <span className="unseen">Verdict</span> : c.title}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {(all ? rows : rows.slice(0, MOST)).map((row) => (
              <FigureLine key={row.pointer ?? row.cells.join()} row={row} columns={columns} />
            ))}
          </tbody>
        </table>
      </Scroll>
      {!all && rows.length > MOST && (
        <p className="small">
          <button type="button" className="link" onClick={() => setAll(true)}>
            {rows.length - MOST} more
          </button>
        </p>
      )}
    </>
  )
}

/** No place in a project: it is never chosen. */
const NOTHING = '-'

function FigureLine({ row, columns }: { row: FigureTable['rows'][number]; columns: FigureTable['columns'] }) {
  const { pointer, cells, strong } = row
  const { isChosen, toggle } = useChosen(pointer ?? NOTHING)
  const classes = [isChosen ? 'chosen' : '', strong ? 'strong' : ''].join(' ').trim()
  const [first = '', ...rest] = cells
  return (
    <tr className={classes === '' ? undefined : classes}>
      <th scope="row" className={columns[0]?.align === 'end' ? 'num' : undefined}>
        {pointer === undefined ? (
          first
        ) : (
          <Pick isPressed={isChosen} onPress={toggle}>
            {first}
          </Pick>
        )}
      </th>
      {rest.map((cell, i) => (
        <td key={columns[i + 1]?.title} className={columns[i + 1]?.align === 'end' ? 'num' : undefined}>
          {cell}
        </td>
      ))}
    </tr>
  )
}
