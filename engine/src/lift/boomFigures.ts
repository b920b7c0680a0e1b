import type { System } from '../model/index.ts'
import { type Answer, given, knownOr, stated } from '../working/answer.ts'
import { boomAngle } from './boom.formulas.ts'
import type { Boom } from './boom.ts'
import type { HangingSizes } from './hanging.ts'
import type { Hooked, Pick } from './pick.ts'
import { fittedOf } from './rated.ts'
import { halfOfSpreader, spreaderSections } from './riggingHull.ts'
import { slewingCentre, standingAt } from './swept.ts'

/** A boom as the file has it: its figures by name, what of them is missing among them, and the boom where none is. */
export interface BoomFigures {
  answers: Record<string, Answer>
  boom: Boom | undefined
}

/** The boom of the crane that a hook belongs to, in this lift. */
export function boomFigures(pick: Pick, hooked: Hooked): BoomFigures {
  const { ahead, level, length, depth, width } = boomAnswers(pick, hooked)
  const centre = slewingCentre(pick, hooked)
  const standing: Record<string, Answer> =
    centre === undefined ? { 'where the crane stands': given('m', standingAt(pick, hooked), undefined) } : {}
  return {
    answers: {
      'length of the boom': length,
      'its pin ahead of the slewing centre, by its maker': ahead,
      'its pin, site z': level,
      'its depth, by its maker': depth,
      'its width, by its maker': width,
      ...standing,
    },
    boom: boomAt(centre, { ahead, level, length, depth, width }),
  }
}

/** A boom of these figures about its slewing centre; undefined where one is not known. */
export function boomAt(centre: Boom['centre'] | undefined, answers: BoomAnswers): Boom | undefined {
  const [length, ahead, level, depth, width] = FIGURES.map((field) => answers[field].value)
  const isKnown = [length, ahead, level, depth, width].every((value) => value !== undefined)
  return centre === undefined || !isKnown ? undefined : ({ centre, length, ahead, level, depth, width } as Boom)
}

const FIGURES = ['length', 'ahead', 'level', 'depth', 'width'] as const
export type BoomAnswers = Readonly<Record<(typeof FIGURES)[number], Answer<'m'>>>

/** The same, figure by figure. */
export const boomAnswers = (pick: Pick, hooked: Hooked): BoomAnswers =>
  boomAnswersOf(hooked.system, hooked.systemAt, fittedOf(pick, hooked).boom)

/** Figures of a crane's boom, of the length that it is set up with. */
export function boomAnswersOf(system: System, systemAt: string, length: Answer<'m'> | undefined): BoomAnswers {
  const own = (field: 'ahead' | 'level' | 'depth' | 'width'): Answer<'m'> =>
    knownOr(system.boom?.[field], 'm', `${systemAt}/boom/${field}`)
  return {
    length: knownOr(length, 'm', `${systemAt}/setUp/boom`),
    ahead: own('ahead'),
    level: own('level'),
    depth: own('depth'),
    width: own('width'),
  }
}

/** Sizes of block and spreaders that the gap is measured to. */
export function sizesOf(pick: Pick, { hook, hookAt }: Hooked): Record<string, Answer> {
  const at = (field: 'width' | 'height'): Answer<'m'> =>
    knownOr(hook.blockSize?.[field], 'm', `${hookAt}/blockSize/${field}`)
  return {
    'width of the block, by its maker': at('width'),
    'height of the block, by its maker': at('height'),
    ...spreaderSections(pick),
  }
}

/** The same as numbers. */
export function hangingSizes(pick: Pick, { hook: { blockSize } }: Hooked): HangingSizes {
  return {
    spreader: halfOfSpreader(pick),
    block: blockSize && { width: blockSize.width.value as number, height: blockSize.height.value as number },
  }
}

/** How steep the boom stands for a radius. */
export function boomAngleAt(pick: Pick, hooked: Hooked, radius: number): Answer<'rad'> {
  const { ahead, length } = boomAnswers(pick, hooked)
  return boomAngle.show({
    r: stated('m', radius, 'from the slewing centre to the hook in that moment'),
    a: ahead,
    L: length,
  })
}
