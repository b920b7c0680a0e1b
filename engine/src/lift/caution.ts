/** Cautions of the trade, shown beside what they concern. Common practice. */
export const LIFT_CAUTIONS: readonly string[] = [
  'The lift director may stop at any time.',
  'Nobody stands or passes under the load or inside the fall zone; the floor below is empty and counted.',
  'Tag lines, never hands.',
  'Loss of the radio means stop.',
]

export const READING_CAUTIONS: readonly string[] = [
  'If the reading passes the ceiling, stop: something still holds.',
  'Weight or centre of gravity outside the band: new plan, new check, new signature.',
]

export const WIND_CAUTIONS: readonly string[] = [
  "Stop at the wind limit printed here or at the machine's own limit, whichever is lower; wind is read at height.",
]

export const TURNING_CAUTIONS: readonly string[] = [
  'Both hooks are watched by one person; both shares are on screen.',
  'Stop on any unplanned side pull.',
]

/** Where the lift leads into or out of the shaft. */
export const SHAFT_CAUTIONS: readonly string[] = [
  'Shaft and machine are confined and gassy until proved otherwise: oxygen, flammable gas, carbon monoxide, hydrogen sulphide. Ventilation first, then people; power goes off at the gas limit of the law.',
  'Two ways out of the shaft stay free; heads are counted.',
]

/** Where the piece is freed, or made fast again, just before or after. */
export const FITTING_CAUTIONS: readonly string[] = [
  'Hot work, work at height, dropped tools, falling bolts, stored energy of springs, injection of grease or oil under the skin, noise, dust, loads by hand: each has its own measure before it begins.',
]

export const PIVOT_CAUTIONS: readonly string[] = [
  'The pivot is kept from sliding and from rolling off before the load comes on; nobody stands on the side it could fall to.',
  'Stop on any movement at the pivot.',
]

export const RESTRAINT_CAUTIONS: readonly string[] = [
  'The restraint is made fast and taut before the over-centre angle, and paid out slowly beyond it.',
]

export const RIGGING_CAUTIONS: readonly string[] = [
  'Ratings come from the tag and the maker; a worn, bent or unmarked item is not used.',
]

export const STRENGTH_CAUTIONS: readonly string[] = [
  'A calculation aid: a licensed structural engineer answers for lugs, welds, beams and bolts, and for their tests.',
]
