import './site.css'
import { VerdictWord } from '../parts/verdict.tsx'
import { routeTo, useShown } from '../state.ts'
import { formOf, linksOf } from './documentLinks.ts'
import { Pick, PickedRow, Rows, WORST_FIRST } from './rows.tsx'
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
      <Rows
        title="The whole campaign and the site"
        caption="The whole campaign and the site: checks and files"
        heads={['Document', 'Its checks', 'Download']}
      >
        {whole.map((d) => (
          <Row key={d.id} documents={[d]} chosen={chosen} onChoose={onChoose} />
        ))}
      </Rows>
      {sheets.length === 0 ? (
        <p>No lift yet: there is no lift sheet and no rigging sheet to print.</p>
      ) : (
        <Rows
          title="Lift sheets, and the rigging of each lift alone"
          caption="Lift sheets, and the rigging of each lift alone: checks and files"
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
        </Rows>
      )}
    </div>
  )
}

/** A document of the whole, or a lift with its sheet and its rigging; what is pressed is shown beside. */
function Row({ documents, chosen, onChoose }: DocumentsProps) {
  const [first] = documents
  if (first === undefined) return null
  const isOfLift = first.of !== 'site'
  return (
    <PickedRow
      isChosen={documents.some((d) => d.id === chosen)}
      pick={
        <Show document={first} chosen={chosen} onChoose={onChoose}>
          {first.title}
        </Show>
      }
      under={first.open.length === 0 ? undefined : `missing: ${first.open.join(', ')}`}
    >
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
    </PickedRow>
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
    <Pick isPressed={document.id === chosen} onPress={() => onChoose(document.id)} label={`Show ${document.title}`}>
      {children}
    </Pick>
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

/** The worst verdict under the document and how many share it. */
function Standing({ document }: { document: DocumentView }) {
  const worst = WORST_FIRST.find((v) => document.counts[v] > 0)
  if (worst === undefined) return <span className="quiet">no checks</span>
  return <VerdictWord verdict={worst}>, {document.counts[worst]}</VerdictWord>
}
