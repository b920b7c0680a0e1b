import './along.css'
import { useState } from 'react'
import { dateText } from '../parts/figures.ts'
import { Scroll } from '../parts/scroll.tsx'
import { useShown } from '../state.ts'
import { RevisionChoice } from './revisionChoice.tsx'
import { type IssuedView, useBook, useKeptBeside } from './useBook.ts'

/** Every sheet of the campaign as one document: made, had as a file, put on record as an issue. */
export function CampaignBook() {
  const { revision, system, trial, readOnly } = useShown()
  const { issued, last, next, made, isOnRecord, running, fault, run, cancel, record } = useBook()
  const beside = useKeptBeside()
  const [of, setOf] = useState('now')
  const [since, setSince] = useState('')
  const names = (beside?.named ?? []).map(({ name, revision: r }): [string, string] => [name, `${name}, revision ${r}`])
  const issues = Object.keys(issued).map((letter): [string, string] => [letter, `issue ${letter}`])
  const asked = {
    kind: 'book',
    of,
    units: system,
    ...(since === '' ? {} : { since: since === NOTHING ? null : since }),
  }
  return (
    <section className="along book" aria-labelledby="campaign-book">
      <div className="titled">
        <h2 id="campaign-book">Campaign book</h2>
        <span className="small quiet">every sheet in one document, numbered, with what changed marked</span>
      </div>
      <div className="choices">
        <RevisionChoice
          label="Of"
          value={of}
          most={revision}
          choices={[['now', `revision ${revision}, as it stands`], ...names]}
          onChoose={setOf}
        />
        <RevisionChoice
          label="compared with"
          value={since}
          most={revision}
          choices={[
            ['', last === undefined ? 'nothing, for a first issue' : `issue ${last}, the last`],
            ...issues.filter(([letter]) => letter !== last),
            ...names,
            ...(last === undefined ? [] : [[NOTHING, 'nothing'] as const]),
          ]}
          onChoose={setSince}
        />
        {running === undefined && next !== undefined && (
          <button type="button" disabled={readOnly !== undefined} onClick={() => void run(asked)}>
            Make issue {next}
          </button>
        )}
        {running !== undefined && <Making {...running} onCancel={cancel} />}
      </div>
      {fault !== undefined && (
        <p className="small fail" role="alert">
          No result: {fault}
        </p>
      )}
      {trial !== undefined && <p className="small">It is made of what is kept, without the edit that is looked at.</p>}
      {made !== undefined && running === undefined && (
        <Made key={made.id} {...made} isOnRecord={isOnRecord} isFixed={readOnly !== undefined} onRecord={record} />
      )}
      {Object.keys(issued).length > 0 && <Issues issued={issued} files={beside?.files} />}
    </section>
  )
}

/** No name of a revision begins like this. */
const NOTHING = '-'

function Making({ done, of, onCancel }: { done: number; of: number; onCancel: () => void }) {
  const percent = Math.floor((100 * done) / of)
  return (
    <>
      <progress max={of} value={done} aria-label="Making of the book" />
      <span className="small" role="status">
        {done === 0 ? 'working it out' : `${percent}\u00a0% drawn and written`}
      </span>
      <button type="button" onClick={onCancel}>
        Cancel
      </button>
    </>
  )
}

interface MadeProps {
  id: string
  request: { letter: string; revision: string; since?: { name: string } }
  result: { sheets: number; size: number }
  isOnRecord: boolean
  isFixed: boolean
  onRecord: (note: string) => Promise<void>
}

/** The book that was made last: its file, and how it goes on record. */
function Made({ id, request, result, isOnRecord, isFixed, onRecord }: MadeProps) {
  const [note, setNote] = useState('')
  const [sending, setSending] = useState(false)
  const { letter, revision, since } = request
  const send = (): void => {
    setSending(true)
    void onRecord(note.trim()).finally(() => setSending(false))
  }
  return (
    <div className="choices">
      <span>
        <span className="strong">Issue {letter}</span> of revision {revision}
        {since === undefined ? '' : `, since ${since.name}`}: {result.sheets} sheets, {megabytes(result.size)}
      </span>
      <a href={`/api/jobs/${id}/book.pdf`} download={`campaign-book-${letter}.pdf`}>
        Download the PDF
      </a>
      {isOnRecord ? (
        <span className="small quiet">on record</span>
      ) : (
        <>
          <label>
            Note <input value={note} maxLength={300} placeholder="for whom" onChange={(e) => setNote(e.target.value)} />
          </label>
          <button type="button" disabled={isFixed || sending} onClick={send}>
            Put on record as issue {letter}
          </button>
        </>
      )}
    </div>
  )
}

const megabytes = (bytes: number): string => `${(bytes / 1e6).toFixed(1)}\u00a0MB`

interface IssuesProps {
  issued: Readonly<Record<string, IssuedView>>
  /** Hashes of the files that are kept; undefined until they are known. */
  files: ReadonlySet<string> | undefined
}

/** What went out, the latest first. */
function Issues({ issued, files }: IssuesProps) {
  return (
    <Scroll name="Issues of the campaign book">
      <table>
        <caption className="unseen">Issues of the campaign book</caption>
        <thead>
          <tr>
            {['Issue', 'On', 'By', 'Revision', 'Since', 'Sheets', 'Note', 'File'].map((head) => (
              <th key={head} scope="col" className={head === 'Revision' || head === 'Sheets' ? 'num' : undefined}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {Object.entries(issued)
            .reverse()
            .map(([letter, { on, by, revision, since, sheets, note, file }]) => (
              <tr key={letter}>
                <th scope="row">{letter}</th>
                <td>{dateText(Date.parse(on))}</td>
                <td>{by}</td>
                <td className="num">{revision}</td>
                <td>{since ?? 'first issue'}</td>
                <td className="num">{sheets}</td>
                <td className="small">{note}</td>
                <td className="small files">
                  {files?.has(file) === false ? (
                    <span className="quiet">not kept here</span>
                  ) : (
                    <a href={`/api/attachments/${file}`} download={`campaign-book-${letter}.pdf`}>
                      PDF<span className="unseen"> of issue {letter}</span>
                    </a>
                  )}
                </td>
              </tr>
            ))}
        </tbody>
      </table>
    </Scroll>
  )
}
