import './site.css'
import { useEffect, useState } from 'react'
import { Picture } from '../campaign/picture.tsx'
import { dateText } from '../parts/figures.ts'
import { useShown } from '../state.ts'
import { formOf, linksOf, workbenchAddress } from './documentLinks.ts'
import { Window, ZOOMS, Zoom } from './picture.tsx'
import { useIssue } from './useDocuments.ts'
import type { DocumentView, PageView } from './view.ts'

/** A document as it would be printed now: a page at a time, drawn when it is looked at. */
export function Preview({ document }: { document: DocumentView }) {
  const { client, system, summary } = useShown()
  const [page, setPage] = useState(1)
  const [zoom, setZoom] = useState(0)
  const [view, setView] = useState<PageView>()
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again when the project changes
  useEffect(() => {
    let here = true
    client
      .ask('page', { document: document.id, page, system, paper: 'A3', base: workbenchAddress() })
      .then((answer) => here && setView(answer))
    return () => {
      here = false
    }
  }, [client, document.id, page, system, summary])
  return (
    <section className="preview" aria-label={`Preview: ${document.title}`}>
      <div className="titled">
        <h2>{document.title}</h2>
        <span className="tools small">
          <span className="quiet">{view === undefined ? '' : `page ${page} of ${view.pages}`}</span>
          <Zoom level={zoom} onZoom={setZoom} of={document.title} />
        </span>
      </div>
      <div className="tools">
        <button type="button" disabled={page <= 1} onClick={() => setPage(page - 1)}>
          Page before
        </button>
        <button type="button" disabled={view === undefined || page >= view.pages} onClick={() => setPage(page + 1)}>
          Next page
        </button>
        {linksOf(document, system).map((link) => (
          <a key={link.words} href={link.href} download={link.file}>
            Download {formOf(link)}
          </a>
        ))}
      </div>
      {view !== undefined && (
        <Window name={document.title} zoomed={zoom > 0}>
          <div className="drawn" style={{ width: `${100 * (ZOOMS[zoom] as number)}%` }}>
            <Picture svg={view.svg} />
          </div>
        </Window>
      )}
      <Issue document={document} />
    </section>
  )
}

/** What is printed on it, and that nothing is issued before a person signs. */
function Issue({ document }: { document: DocumentView }) {
  const { revision } = useShown()
  const issue = useIssue()
  const { readiness, open, counts } = document
  return (
    <>
      <p className="small">
        {issue === undefined ? (
          `Revision ${revision}.`
        ) : (
          <>
            On paper: revision <span className="strong">{issue.revision}</span>,{' '}
            {dateText(Date.parse(issue.date), false)}, content{' '}
            <span className="strong">{issue.contentHash.slice(0, 12)}</span>. The same content and date give the same
            file.
          </>
        )}
      </p>
      <p className="small">
        {readiness === 'ready'
          ? 'Nothing stands in its way; it is issued when the people named on it have signed.'
          : readiness === 'failing'
            ? `Not to be issued: ${counts.fail} of its checks fail.`
            : open.length > 0
              ? `Not to be issued yet: ${open.length} inputs are missing.`
              : `Not to be issued yet: ${counts.open} of its checks are open.`}{' '}
        <span className="quiet">No signature is kept yet: every sheet says not signed.</span>
      </p>
    </>
  )
}
