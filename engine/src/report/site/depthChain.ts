import { line, type Mark, type PaperBox, text } from '../drawing.ts'
import { dimension } from '../paper/dimension.ts'
import { FINE, SMALL } from '../paper/pen.ts'
import { onPaper, type Placing } from '../paper/scale.ts'
import { spread } from '../paper/spread.ts'
import { lengthText, levelText } from '../sheet/figures.ts'
import type { SiteSubject } from './subject.ts'

/** Width of the chain with its levels, mm. */
export const CHAIN_WIDTH = 25
const OFFSET = 6
const TICK = 10
const STEP = 2.75

interface Level {
  name: string
  z: number
}

/** Levels of the work from the hook down: each with what it is, as the model has them. */
function levelsOf({ stages }: SiteSubject): Level[] {
  const { shaft, systems } = stages.model.project
  const hooks = Object.values(systems)
    .filter((s) => s.rails !== undefined)
    .flatMap((s) => Object.values(s.hooks).flatMap((h) => h.highest?.value ?? []))
  const all: Level[] = [
    ...(hooks.length === 0 ? [] : [{ name: 'highest hook', z: Math.max(...hooks) }]),
    ...(shaft === undefined
      ? []
      : [
          { name: 'collar', z: shaft.collar.value as number },
          { name: 'top of the base slab', z: shaft.slabTop.value as number },
          { name: 'deepest excavation', z: shaft.excavation.value as number },
          { name: 'toe of the wall', z: shaft.wall.toe.value as number },
        ]),
  ]
  return all.sort((a, b) => b.z - a.z).filter((l, i) => i === 0 || (all[i - 1]?.z ?? 0) - l.z > 0.01)
}

/** A chain of heights and depths at the left of a section, with the level of each. */
export function depthChain(subject: SiteSubject, placing: Placing, window: PaperBox): Mark[] {
  const levels = levelsOf(subject)
  const left = placing.of[0] + ((window.left - placing.at[0]) * placing.scale) / 1000
  const ys = levels.map(({ z }) => onPaper(placing, [0, z])[1])
  const places = spread(ys, STEP)
  const x = window.left - TICK
  return [
    ...levels.slice(1).map((lower, i) => {
      const upper = levels[i] as Level
      const value = upper.z - lower.z
      return dimension({
        name: `${upper.name} to ${lower.name}`,
        value,
        words: lengthText(value, subject.units),
        placing,
        from: [left, lower.z],
        along: 'up',
        offset: OFFSET,
      })
    }),
    ...levels.flatMap(({ z }, i): Mark[] => [
      line(
        [
          [x, ys[i] as number],
          [x - 2.4, places[i] as number],
        ],
        FINE,
      ),
      text([x - 3, (places[i] as number) + SMALL * 0.36], levelText(z, subject.units), { size: SMALL, anchor: 'end' }),
    ]),
  ]
}
