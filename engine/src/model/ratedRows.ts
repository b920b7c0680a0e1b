import type { System } from './schema/project.ts'

type Hook = System['hooks'][string]

/** Rows of all charts of a hook, by themselves or under charts; none where it has one rating for its whole travel. */
export const ratedRows = ({ chart = [], charts }: Hook): NonNullable<Hook['chart']> => [
  ...chart,
  ...Object.values(charts).flatMap(({ rows }) => rows),
]
