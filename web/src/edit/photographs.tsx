import './photographs.css'
import { WITH_ATTACHMENTS } from '@shieldwright/engine/model/attachmentsNamed.ts'
import { problemText } from '@shieldwright/engine/working/problem.ts'
import { useState } from 'react'
import { type FileDue, kindOf, unreadable } from '../parts/fileSent.ts'
import { useShown } from '../state.ts'
import { ValueField } from './valueField.tsx'

/** A file that a record names, as it stands in the project file. */
interface Attached {
  hash?: string
  caption?: string
}

interface PhotographsProps {
  /** Address of the list of files. */
  pointer: string
  name: string
  value: unknown
}

/** Where the schema keeps files of a record. */
export const isAttached = (pointer: string): boolean => ATTACHED.test(pointer)

const ATTACHED = new RegExp(`^/(${WITH_ATTACHMENTS.join('|')})/[^/]+/attachments$`)

/** Photographs of a record: each is shown, captioned and removed; a new one is put into the store and named here. */
export function Photographs({ pointer, name, value }: PhotographsProps) {
  const { act, readOnly } = useShown()
  const held = (Array.isArray(value) ? value : []) as readonly Attached[]
  const [said, setSaid] = useState('')
  const take = async (file: File): Promise<void> => {
    setSaid(`Putting ${file.name} into the store…`)
    const kept = await keptFile(file)
    if ('problem' in kept) return setSaid(kept.problem)
    setSaid('')
    const item = { hash: kept.hash, caption: captionOf(file.name) }
    const path = value === undefined ? pointer : `${pointer}/-`
    act.tryOut([{ op: 'add', path, value: value === undefined ? [item] : item }], `${name}: ${file.name} added`)
  }
  return (
    <div className="photographs">
      {held.map((one, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: one file may be named twice, and a caption is of its place
        <figure key={`${one.hash} ${i}`}>
          <Photograph hash={one.hash ?? ''} caption={one.caption ?? `${name} ${i + 1}`} />
          <figcaption className="small">
            <ValueField pointer={`${pointer}/${i}/caption`} name={`${name} ${i + 1}, caption`} />
            {readOnly === undefined && (
              <button
                type="button"
                className="link"
                aria-label={`Remove ${name} ${i + 1}`}
                onClick={() => act.tryOut([{ op: 'remove', path: `${pointer}/${i}` }], `${name} ${i + 1} removed`)}
              >
                remove
              </button>
            )}
          </figcaption>
        </figure>
      ))}
      {readOnly === undefined && (
        <label className="small">
          Add a photograph, JPEG or PNG of at most 12 MB{' '}
          <input
            type="file"
            accept="image/jpeg,image/png"
            aria-label={`Add a photograph to ${name}`}
            onChange={(event) => {
              const [file] = event.target.files ?? []
              event.target.value = ''
              if (file !== undefined) void take(file)
            }}
          />
        </label>
      )}
      <p className="small" role="status">
        {said}
      </p>
    </div>
  )
}

/** The picture with a way to it as it is; where the store has none, that is said with its hash. */
function Photograph({ hash, caption }: { hash: string; caption: string }) {
  const [isMissing, setMissing] = useState(false)
  const href = `/api/attachments/${encodeURIComponent(hash)}`
  if (isMissing)
    return (
      <p className="missing small">
        not in the store: <span className="hash">{hash.slice(0, SHOWN)}…</span>
      </p>
    )
  return (
    <a href={href} target="_blank" rel="noreferrer">
      <img src={href} alt={caption} onError={() => setMissing(true)} />
    </a>
  )
}

/** Digits of a hash that tell a file from the others to the eye. */
const SHOWN = 12

/** What a file is called, without its ending. */
const captionOf = (file: string): string => file.replace(/\.[a-z0-9]+$/i, '').slice(0, 200) || 'photograph'

const PHOTOGRAPH: FileDue = { most: 12 * 1024 * 1024, expected: 'a picture, JPEG or PNG,', example: 'seal.jpg' }

async function keptFile(file: File): Promise<{ hash: string } | { problem: string }> {
  const why = unreadable(file, PHOTOGRAPH)
  if (why !== undefined) return { problem: problemText(why) }
  const kind = (await kindOf(file)) ?? 'no picture, by its first bytes'
  if (!/JPEG|PNG/.test(kind)) return { problem: `${file.name} is ${kind}; a JPEG or PNG is due.` }
  const answer = await fetch(`/api/attachments?name=${encodeURIComponent(file.name)}`, {
    method: 'POST',
    headers: { 'content-type': /PNG/.test(kind) ? 'image/png' : 'image/jpeg' },
    body: file,
  }).catch(() => undefined)
  if (answer?.ok) return { hash: ((await answer.json()) as { hash: string }).hash }
  const { problems } = (await answer?.json().catch(() => ({}))) ?? {}
  const [problem] = (problems ?? []) as { found: string; expected: string }[]
  const told = problem === undefined ? 'no answer from the host' : `${problem.found}; due: ${problem.expected}`
  return { problem: `${file.name} was not kept: ${told}.` }
}
