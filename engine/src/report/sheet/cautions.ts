/** Shown on every report. */
export const DEFERRAL =
  'This sheet is a calculation aid for competent people. It has not examined your site. Local law, the manufacturer’s instructions, the standards in force and the decisions of licensed engineers and appointed persons govern. A result marked open is not an approval. Check inputs, limits and revision before use; a person of the required competence signs.'

/** Said of every project that is made up. */
export const INVENTED = 'Invented data: no real machine, project or place.'

export const SIGNING_ROLES: readonly string[] = [
  'planned',
  'checked',
  'lift director',
  'operator',
  'rigger in charge',
  'owner, critical lifts',
]
