import { type Change, kind } from './fixture.ts'
import { standingClearance } from './kinds.ts'

/** A second block, 4 m behind, taken out before the first and landed 5 m beside where that goes. */
export const withAnother: Change = (d) => {
  d.parts.other = structuredClone(d.parts.block)
  d.parts.other.solids[0].centre[0] = '-4 m'
  const points = structuredClone(d.pieces.block.points)
  for (const point of Object.values(points) as { at: string[] }[])
    point.at[0] = `${Number.parseFloat(point.at[0] as string) - 4} m`
  d.pieces.other = { ...structuredClone(d.pieces.block), name: 'Other block', parts: ['other'], points }
  d.lifts.first = { ...structuredClone(d.lifts.out), piece: 'other', landing: ['5 m', '20 m', '0 m'] }
  d.lifts.out.landing = ['0 m', '20 m', '0 m']
  d.steps.S0 = { ...structuredClone(d.steps.S1), piece: 'other', lift: 'first' }
  d.order = ['S0', 'S1']
}

const changed =
  (change: Change): Change =>
  (d) => {
    withAnother(d)
    change(d)
  }

export const standingFixtures = kind(
  standingClearance,
  changed((d) => {
    d.lifts.first.landing[0] = '3.2 m'
  }),
  changed((d) => {
    delete d.lifts.first.landing
  }),
  withAnother,
)
