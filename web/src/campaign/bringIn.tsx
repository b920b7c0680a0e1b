import type { Operation } from '@shieldwright/engine/working/patch.ts'
import { problemText } from '@shieldwright/engine/working/problem.ts'
import { type ChangeEvent, useRef, useState } from 'react'
import { type FileDue, fileSent } from '../parts/fileSent.ts'
import { useShown } from '../state.ts'
import type { TakenTable } from './taken.ts'

const MOST_SHOWN = 50

type Said = { taken: TakenTable; name: string } | { refused: string } | undefined

/** A table of progress from a file: first what of it is refused and why, then what the rest would move; kept like any edit. */
export function BringIn() {
  const { act, readOnly, trial } = useShown()
  const [date, setDate] = useState('')
  const [said, setSaid] = useState<Said>()
  const [reading, setReading] = useState(false)
  const file = useRef<HTMLInputElement>(null)
  const read = async (event: ChangeEvent<HTMLInputElement>): Promise<void> => {
    const chosen = event.target.files?.[0]
    if (chosen === undefined) return
    setReading(true)
    setSaid(await asked(chosen, date.trim()))
    setReading(false)
    // the same file, mended, may be chosen again
    if (file.current !== null) file.current.value = ''
  }
  return (
    <div className="bringIn">
      <h3>Bring in progress</h3>
      <p className="small quiet">
        The form is among the files above. Fill in starts, finishes, working days to go; CSV or XLSX.
      </p>
      <div className="row">
        <label>
          Known up to <input value={date} placeholder="2032-03-05T18:00" onChange={(e) => setDate(e.target.value)} />
        </label>
        <label>
          Table of progress{' '}
          <input
            ref={file}
            type="file"
            accept=".csv,.xlsx,text/csv"
            disabled={readOnly !== undefined || trial !== undefined || reading}
            onChange={(e) => void read(e)}
          />
        </label>
        {reading && <span className="small quiet">reading…</span>}
      </div>
      {said !== undefined && 'refused' in said && (
        <p className="small fail" role="alert">
          {said.refused}
        </p>
      )}
      {said !== undefined && 'taken' in said && (
        <Report
          {...said}
          onTry={(patch) => {
            act.tryOut(patch, `progress from ${said.name}`)
            setSaid(undefined)
          }}
        />
      )}
    </div>
  )
}

const TABLE: FileDue = { most: 4 * 1024 * 1024, expected: 'a table, CSV or XLSX,', example: 'activity,start,finish' }

async function asked(chosen: File, date: string): Promise<Said> {
  const query = new URLSearchParams({ of: 'progress', name: chosen.name, ...(date === '' ? {} : { dataDate: date }) })
  const said = await fileSent<TakenTable>(`/api/exchange/import?${query}`, chosen, TABLE)
  return 'refused' in said ? said : { taken: said.answer, name: chosen.name }
}

function Report({
  taken: { patch, taken, same, refused },
  name,
  onTry,
}: {
  taken: TakenTable
  name: string
  onTry: (patch: readonly Operation[]) => void
}) {
  return (
    <div role="status" aria-label="Report of the table">
      <p>
        {name}: {taken} rows would change something, {same} say what is known already,{' '}
        <span className={refused.length > 0 ? 'fail strong' : undefined}>{refused.length} refused</span>.
      </p>
      {refused.length > 0 && (
        <ul className="small">
          {refused.slice(0, MOST_SHOWN).map((r) => (
            <li key={problemText(r)}>{problemText(r)}</li>
          ))}
          {refused.length > MOST_SHOWN && <li>and {refused.length - MOST_SHOWN} more</li>}
        </ul>
      )}
      {patch.length > 0 && (
        <button type="button" onClick={() => onTry(patch)}>
          Show what it moves
        </button>
      )}
    </div>
  )
}
