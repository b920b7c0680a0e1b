import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { useId, useState } from 'react'
import type { FileRead } from '../engine/protocol.ts'
import { type FileDue, kindOf, unreadable } from '../parts/fileSent.ts'
import { useShown } from '../state.ts'

const SHOWN_PROBLEMS = 100

/** Chooses or takes a dropped project file, lists what is wrong with it, and puts it in place of the project when asked. */
export function OpenFile() {
  const { client, act, readOnly, trial } = useShown()
  const [read, setRead] = useState<{ name: string; file: FileRead }>()
  const [reading, setReading] = useState<string>()
  const [over, setOver] = useState(false)
  const id = useId()
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return
    setReading(file.name)
    const why = await notRead(file)
    const read = why === undefined ? await client.ask('file', { text: await file.text() }) : { problems: [why] }
    setRead({ name: file.name, file: read })
    setReading(undefined)
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
      data-takes-files
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
          onChange={(event) => {
            const file = event.target.files?.[0]
            void take(file).then(() => {
              // the same file, mended, may be chosen again
              event.target.value = ''
            })
          }}
        />
      </p>
      {reading !== undefined && <p role="status">Reading {reading}…</p>}
      {reading === undefined && read !== undefined && <Outcome name={read.name} file={read.file} onPut={put} />}
    </section>
  )
}

const PROJECT: FileDue = {
  most: 64 * 1024 * 1024,
  expected: 'a project file, JSON or YAML,',
  example: 'project.yaml',
}

/** Why a file cannot be a project file, before all of it is read. */
async function notRead(file: File): Promise<Problem | undefined> {
  const why = unreadable(file, PROJECT)
  const kind = why === undefined ? await kindOf(file) : undefined
  if (kind === undefined) return why
  const { expected, example } = PROJECT
  const beside = kind.startsWith('a mesh') ? ' beside which its meshes lie, each named by the SHA-256 of its bytes' : ''
  return { pointer: file.name, found: kind, expected: expected + beside, example }
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
