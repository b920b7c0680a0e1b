import { OPEN } from './figures.ts'
import type { SheetSubject } from './subject.ts'

/** A temporary work that a lift rests on, as its register has it; `open` where an act is not entered. */
export interface SheetWork {
  id: string
  name: string
  category: string
  designed: string
  checked: string
  /** By whom, from which day and until which. */
  permitToLoad: string
  approvals: readonly string[]
}

interface Act {
  by: string
  on: string
  until?: string | undefined
}

/** Temporary works under a lift. */
export function worksOf({ stages, outcome }: SheetSubject): SheetWork[] {
  const { temporaryWorks } = stages.model.project
  return outcome.works.flatMap((id) => {
    const work = temporaryWorks[id]
    if (work === undefined) return []
    const { name, category, designed, checked, permitToLoad, approvals } = work
    return [
      {
        id,
        name,
        category: category === undefined ? OPEN : `${category}`,
        designed: actText(designed),
        checked: actText(checked),
        permitToLoad: actText(permitToLoad),
        approvals: Object.values(approvals).map(({ of, given }) => `${of}: ${actText(given)}`),
      },
    ]
  })
}

function actText(act: Act | undefined): string {
  if (act === undefined) return OPEN
  return `${act.by}, ${act.on}${act.until === undefined ? '' : ` to ${act.until}`}`
}
