import { useState } from 'react'
import { OnRecord } from '../signing/record.tsx'
import { BringTicks } from '../site/bringTicks.tsx'
import { CampaignBook } from '../site/campaignBook.tsx'
import { Documents } from '../site/documents.tsx'
import { Preview } from '../site/preview.tsx'
import { TakeAlong } from '../site/takeAlong.tsx'
import { useDocuments } from '../site/useDocuments.ts'
import { StageChecks } from './stage.tsx'

/** What can be handed over: every document, how it stands, and how it looks. */
export function ReportPage() {
  const documents = useDocuments()
  const [chosen, setChosen] = useState<string>()
  const document = documents?.find((d) => d.id === chosen) ?? documents?.find((d) => d.of === 'site') ?? documents?.[0]
  return (
    <>
      {documents === undefined && <p className="quiet">Reading what can be put on paper.</p>}
      {documents !== undefined && documents.length === 0 && <p>Nothing can be put on paper yet.</p>}
      {documents !== undefined && document !== undefined && (
        <div className="papers">
          <Documents documents={documents} chosen={document.id} onChoose={setChosen} />
          <Preview key={document.id} document={document} />
        </div>
      )}
      {documents !== undefined && documents.length > 0 && <CampaignBook />}
      <OnRecord />
      <TakeAlong />
      <BringTicks />
      <StageChecks stage="report" />
    </>
  )
}
