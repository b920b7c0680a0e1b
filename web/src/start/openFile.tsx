import { useId, useState } from 'react'
import type { FileRead } from '../engine/protocol.ts'
import { useShown } from '../state.ts'

const SHOWN_PROBLEMS = 100

/** Chooses or takes a dropped project file, lists what is wrong with it, and puts it in place of the project when asked. */
export function OpenFile() {
  const { client, act, readOnly, trial } = useShown()
  const [read, setRead] = useState<{ name: string; file: FileRead }>()
  const [over, setOver] = useState(false)
  const id = useId()
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return
    setRead({ name: file.name, file: await client.ask('file', { text: await file.text() }) })
  }
  const put = (): void => {
    if (read?.file.document === undefined) return
    if (trial !== undefined) act.discard()
    act.tryOut([{ op: 'replace', path: '', value: read.file.document }], `opened ${read.name}`)
  }
  return (
    <section
      className={over ? 'open-file over' : 'open-file'}
      aria-label="Open a project file"
      onDragOver={(event) => {
        event.preventDefault()
        setOver(true)
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault()
        setOver(false)
        void take(event.dataTransfer.files[0])
      }}
    >
      <h2>Or open a project file</h2>
      <p>
        <label htmlFor={id}>JSON or YAML, chosen here or dropped on this line: </label>
        <input
          id={id}
          type="file"
          accept=".json,.yaml,.yml"
          disabled={readOnly !== undefined}
          onChange={(event) => void take(event.target.files?.[0])}
        />
      </p>
      {read !== undefined && <Outcome name={read.name} file={read.file} onPut={put} />}
    </section>
  )
}

function Outcome({ name, file, onPut }: { name: string; file: FileRead; onPut: () => void }) {
  if (file.document !== undefined)
    return (
      <p role="status">
        {name} is sound: {file.counts}.{' '}
        <button type="button" className="main" onClick={onPut}>
          Look at it in place of this project
        </button>{' '}
        <span className="quiet">What is here now stays in the log and can be taken back.</span>
      </p>
    )
  return (
    <div role="alert">
      <p>
        <span className="fail strong">{name} is not a sound project, and nothing was taken from it.</span>{' '}
        {file.problems.length === 1 ? 'One thing is wrong:' : `${file.problems.length} things are wrong:`}
      </p>
      <ul className="problems">
        {file.problems.slice(0, SHOWN_PROBLEMS).map((p) => (
          <li key={`${p.pointer} ${p.found} ${p.expected}`}>
            <span className="strong">{p.pointer || 'whole file'}</span>: found {p.found}, expected {p.expected}
            {p.example === undefined ? '' : `, such as “${p.example}”`}
          </li>
        ))}
      </ul>
    </div>
  )
}
