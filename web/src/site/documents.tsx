import './site.css'
import type { Verdict } from '@shieldwright/engine/working/check.ts'
import { Scroll } from '../parts/scroll.tsx'
import { VerdictWord } from '../parts/verdict.tsx'
import { routeTo, useShown } from '../state.ts'
import { formOf, linksOf } from './documentLinks.ts'
import type { DocumentView } from './view.ts'

interface DocumentsProps {
  documents: readonly DocumentView[]
  chosen: string
  onChoose: (id: string) => void
}

/** Every document that can be printed: what stands in its way, and where it can be had. */
export function Documents({ documents, chosen, onChoose }: DocumentsProps) {
  const whole = documents.filter((d) => d.of === 'site')
  const sheets = documents.filter((d) => d.kind === 'lift-sheet')
  return (
    <div>
      <Table title="The whole campaign and the site" heads={['Document', 'Its checks', 'Download']}>
        {whole.map((d) => (
          <Row key={d.id} documents={[d]} chosen={chosen} onChoose={onChoose} />
        ))}
      </Table>
      {sheets.length === 0 ? (
        <p>No lift yet: there is no lift sheet and no rigging sheet to print.</p>
      ) : (
        <Table
          title="Lift sheets, and the rigging of each lift alone"
          heads={['Lift', 'Its checks', 'Lift sheet', 'Rigging', 'Page']}
        >
          {sheets.map((d) => {
            const rigging = documents.find((r) => r.kind === 'rigging' && r.of === d.of)
            return (
              <Row
                key={d.id}
                documents={rigging === undefined ? [d] : [d, rigging]}
                chosen={chosen}
                onChoose={onChoose}
              />
            )
          })}
        </Table>
      )}
    </div>
  )
}

function Table({ title, heads, children }: { title: string; heads: readonly string[]; children: React.ReactNode }) {
  return (
    <section>
      <h2>{title}</h2>
      <Scroll name={title}>
        <table>
          <caption className="unseen">{title}: checks and files</caption>
          <thead>
            <tr>
              {heads.map((head) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>{children}</tbody>
        </table>
      </Scroll>
    </section>
  )
}

/** A document of the whole, or a lift with its sheet and its rigging; what is pressed is shown beside. */
function Row({ documents, chosen, onChoose }: DocumentsProps) {
  const [first] = documents
  if (first === undefined) return null
  const isOfLift = first.of !== 'site'
  return (
    <tr className={documents.some((d) => d.id === chosen) ? 'chosen' : undefined}>
      <th scope="row">
        <Show document={first} chosen={chosen} onChoose={onChoose}>
          {first.title}
        </Show>
        {first.open.length > 0 && <div className="small quiet">missing: {first.open.join(', ')}</div>}
      </th>
      <td>
        <Standing document={first} />
      </td>
      {documents.map((d, i) => (
        <td key={d.id} className="small files">
          <Files document={d} />
          {i > 0 && (
            <Show document={d} chosen={chosen} onChoose={onChoose}>
              show
            </Show>
          )}
        </td>
      ))}
      {isOfLift && documents.length === 1 && <td />}
      {isOfLift && (
        <td className="small files">
          <a href={routeTo('lift', first.of)} aria-label={`Page of the lift ${first.of}`}>
            lift
          </a>
        </td>
      )}
    </tr>
  )
}

function Show({
  document,
  chosen,
  onChoose,
  children,
}: {
  document: DocumentView
  chosen: string
  onChoose: (id: string) => void
  children: React.ReactNode
}) {
  return (
    <button
      type="button"
      className="link"
      aria-pressed={document.id === chosen}
      aria-label={`Show ${document.title}`}
      onClick={() => onChoose(document.id)}
    >
      {children}
    </button>
  )
}

function Files({ document }: { document: DocumentView }) {
  const { system } = useShown()
  return linksOf(document, system).map((link) => (
    <a
      key={link.words}
      href={link.href}
      download={link.file}
      aria-label={`Download ${document.title}, ${formOf(link)}`}
    >
      {link.words}
    </a>
  ))
}

const WORST: readonly Verdict[] = ['fail', 'open', 'near', 'pass']

/** The worst verdict under the document and how many share it. */
function Standing({ document }: { document: DocumentView }) {
  const worst = WORST.find((v) => document.counts[v] > 0)
  if (worst === undefined) return <span className="quiet">no checks</span>
  return <VerdictWord verdict={worst}>, {document.counts[worst]}</VerdictWord>
}
