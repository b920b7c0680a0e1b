import type { Stages } from '@shieldwright/engine'
import { tagSheets } from '@shieldwright/engine/report/tags/tagSheets.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { pdfOf } from '../paper/pdf.ts'
import type { HandIssue } from './boltUp.ts'

/** What tags are asked for with. */
export interface TagIssue extends HandIssue {
  /** Address of the workbench as it is reached from the site. */
  base?: string | undefined
}

/** Tags of the services as PDF: the same stages and issue give the same bytes; undefined where nothing is parted. */
export async function tagsPdf(stages: Stages, { paper, ...issue }: TagIssue): Promise<Uint8Array | undefined> {
  const pages = tagSheets(stages, { ...issue, ...(paper && { paper }) })
  if (pages === undefined) return undefined
  const subject = stages.model.project.about.title
  return pdfOf(pages, { title: 'Tags of services', subject, date: new Date(`${issue.date}T00:00:00Z`) })
}

const LONGEST_BASE = 200

/** What is wrong with an address that symbols are to begin with: a symbol is opened by whoever stands before it. */
export function baseProblem(base: string, pointer: string): Problem | undefined {
  const url = URL.canParse(base) ? new URL(base) : undefined
  const isSound =
    url !== undefined &&
    /^https?:$/.test(url.protocol) &&
    url.username === '' &&
    url.password === '' &&
    base.length <= LONGEST_BASE &&
    /^[\x21-\x7e]+$/.test(base)
  if (isSound) return undefined
  return {
    pointer,
    found: JSON.stringify(base.slice(0, LONGEST_BASE)),
    expected: `an address of the workbench, http or https, without a name or password, at most ${LONGEST_BASE} characters`,
    example: 'https://site-office:8443/',
  }
}
