import type { Reading } from './campaign.ts'

/** A span of the plan with what it does, by the activity that says so. */
export interface Span {
  activity: string
  name: string
  start: number
  finish: number
}

/** The shaft as it is made and left again: whatever of it the programme's own words tell. */
export interface Sinking {
  piles?: Span
  /** From level to level, the last one below. */
  dig: readonly (Span & { from: number; to: number })[]
  slab?: Span
  cradle?: Span
  /** The machine on its way to the wall, then into the shaft. */
  drive?: Span
  breakIn?: Span
  /** The machine lies on its cradle. */
  home: number | undefined
  fill?: Span
  breakOut?: Span
}

const LEVEL = /\bto\s*[-−–]\s*(\d+(?:\.\d+)?)\s*(m|ft)\b/i
const FOOT = 0.3048

/**
 * Reads the making of the shaft from the names of the typed activities: the schema has no levels for a stage of digging, and
 * names carry them ("Excavate stage 1 to −12 m"). What no name tells is not drawn.
 */
export function sinkingOf({ model, programme, when }: Reading): Sinking {
  const { shaft } = model.project
  const spans = Object.values(programme.activities).flatMap((a): (Span & { phase: string })[] => {
    const planned = when(a.id)
    return a.kind !== 'typed' || planned === undefined
      ? []
      : [{ activity: a.id, name: a.name, phase: a.phase, ...planned }]
  })
  const named = (words: RegExp, phase = /./): Span | undefined =>
    spans.find((s) => words.test(s.name) && phase.test(s.phase))
  const collar = shaft?.collar.value ?? 0
  const digging = spans
    .filter((s) => /excavat|\bdig\b|\bsink\b/i.test(s.name))
    .flatMap((s) => {
      const [, depth, unit] = LEVEL.exec(s.name) ?? []
      return depth === undefined ? [] : [{ ...s, to: -Number(depth) * (unit === 'ft' ? FOOT : 1) }]
    })
    .sort((a, b) => a.start - b.start)
  const dig = digging.map((s, i) => ({ ...s, from: digging[i - 1]?.to ?? collar }))
  const [slide, breakIn] = [named(/\bcradle\b/i, /drive/i), named(/break in/i)]
  const begins = when('order.begin')?.finish
  return {
    ...known('piles', named(/\bpiles?\b|\bpanels?\b/i, /shaft/i)),
    dig,
    ...known('slab', named(/\bslab\b/i, /shaft/i)),
    ...known('cradle', named(/\bcradle\b/i, /shaft/i)),
    ...known('drive', named(/^drive\b/i, /drive/i)),
    ...known('breakIn', breakIn),
    home: slide?.finish ?? breakIn?.finish ?? begins,
    ...known('fill', named(/\bfill the shaft\b|\bfill round\b/i)),
    ...known('breakOut', named(/break out/i)),
  }
}

const known = <K extends string>(key: K, span: Span | undefined): { [P in K]?: Span } =>
  (span === undefined ? {} : { [key]: span }) as { [P in K]?: Span }
