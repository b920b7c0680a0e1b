/**
 * What must be seen on the sheet itself, beside what it concerns. Common practice of lifting and of standards for planned
 * lifts, in own words.
 */
export const LIFT_CAUTIONS: readonly string[] = [
  'The lift director may stop at any time.',
  'Nobody stands or passes under the load or inside the fall zone; the floor below is empty and counted.',
  'Tag lines, never hands.',
  "Stop at the wind limit printed here or at the machine's own limit, whichever is lower; wind is read at height.",
  'Radio lost: stop.',
  'If the reading passes the ceiling, stop: something still holds.',
  'Weight or centre of gravity outside the band: new plan, new check, new signature.',
]

export const TURNING_CAUTIONS: readonly string[] = [
  'Both hooks are watched by one person; both shares stay on the screen.',
  'Stop on any side pull that is not planned.',
]

/** Shown on every report. */
export const DEFERRAL =
  'This sheet is a calculation aid for competent people. It has not examined your site. Local law, the manufacturer’s instructions, the standards in force and the decisions of licensed engineers and appointed persons govern. A result marked open is not an approval. Check inputs, limits and revision before use; a person of the required competence signs.'

/** Said of every project that is made up. */
export const INVENTED = 'Invented data: no real machine, project or place.'

export const SIGNING_ROLES: readonly string[] = ['planned', 'checked', 'lift director', 'owner, critical lifts']
