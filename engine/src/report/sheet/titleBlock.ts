import { showQuantity } from '../../working/quantity.ts'
import { dateText } from '../civil.ts'
import { INVENTED } from './cautions.ts'
import type { Figure } from './figures.ts'
import type { LiftSheet, SheetOptions } from './liftSheet.ts'

/** The strip at the foot of every page. */
export interface TitleBlock {
  lift: string
  mass: string
  hook: string
  wind: string
  revision: string
  content: string
  signed: string
  notice: string
}

const HASH_SHOWN = 12

/** What the strip says of a sheet. */
export function titleBlock(
  sheet: Omit<LiftSheet, 'titleBlock'>,
  { contentHash, revision, date }: SheetOptions,
): TitleBlock {
  const signed = sheet.signatures.filter((s) => s.signed !== '').length
  return {
    lift: `${sheet.id}: ${sheet.title}`,
    mass: `${sheet.mass.net.text} ± ${sheet.mass.plusMinus.text}`,
    hook: `${figureOf(sheet.demand, sheet)} of ${sheet.allowed.text}: ${sheet.useText}`,
    wind: sheet.wind.limit.si === undefined ? 'wind limit open' : `gust ${sheet.wind.limit.text}`,
    revision: [
      revision === undefined ? 'not issued' : `revision ${revision}`,
      ...(date === undefined ? [] : [dateText(date)]),
    ].join(', '),
    content: contentHash === undefined ? 'content not fixed' : `content ${contentHash.slice(0, HASH_SHOWN)}`,
    signed: signed === 0 ? 'not signed' : `${signed} of ${sheet.signatures.length} signed`,
    notice: sheet.invented ? INVENTED : '',
  }
}

const figureOf = (total: Figure, { units }: Pick<LiftSheet, 'units'>): string =>
  showQuantity(total.si, total.unit, units)
