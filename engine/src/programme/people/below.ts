import { type BelowGround, epochOf, type Model } from '../../model/index.ts'
import { given } from '../../working/answer.ts'
import { type Check, type CheckKind, check, type Subject } from '../../working/check.ts'
import { faultsFound, NONE } from '../../working/fault.ts'
import { pointerOf } from '../../working/pointer.ts'
import type { Activity, Scheduled } from '../activity.ts'
import type { BayOfStep } from '../inShaft.ts'
import type { Actuals } from '../progress.ts'

/** What the checks of people below ground are made from. */
export interface Below {
  model: Model
  /** What the project has of it; nothing, where the section is absent. */
  people: BelowGround | undefined
  activities: readonly Activity[]
  plan: Readonly<Record<string, Scheduled>>
  actual: Actuals
  bayOfStep: BayOfStep
  /** ms since 1970 of second nought of the programme, and of the data date; undefined without a programme. */
  origin: number | undefined
  dataDate: number | undefined
}

/** ms since 1970 of a moment with its time; local time in the zone of the programme. */
export const msOf = ({ model }: Pick<Below, 'model'>, text: string): number =>
  epochOf(text, model.project.programme?.timeZone ?? 'UTC', 'first')

export const CAUTION =
  'A record is no permission: local law, the safety lead and the person in charge on the spot decide who goes below ground and who comes out.'

const at = (...tokens: string[]): string => pointerOf('belowGround', ...tokens)

export const subjectAt = (name: string, ...tokens: string[]): Subject => ({
  pointer: at(...tokens),
  id: tokens.slice(1).join('/') || (tokens[0] as string),
  name,
})

/** An input of the section that is not there. */
export const missingAt = (...tokens: string[]) => given('1', at(...tokens), undefined)

/** One open check in place of many, where nothing of its kind is entered. */
export function nothingEntered(kind: CheckKind, below: Below, section: string, what: string): Check {
  return check({
    kind,
    subject: subjectAt(what, section),
    demand: faultsFound(0, `${what}: nothing is entered`, { [section]: missingAt(section) }),
    capacity: NONE,
    near: below.model.near,
    cautions: [CAUTION],
  })
}
