import { formula } from '../working/formula.ts'

/** How far the checker's own figure is from the designer's. */
export const figureDifference = formula({
  id: 'lift.works.difference',
  title: "Difference of the checker's own figure from the designer's",
  source: { basis: 'derived', text: "difference as a share of the designer's figure" },
  gives: ['d', '1'],
  from: { D: ['1', 'use by the designer'], C: ['1', "use by the checker's own figures"] },
  as: 'abs(C - D) / D',
  valid: ['D > 0'],
})
