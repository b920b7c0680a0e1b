import { type Change, kind } from './fixture.ts'
import { worksFigures, worksIndependent, worksReady } from './kinds.ts'

/** A foundation under the tower with its certificates and permit, checked by others with figures of their own. */
export const onFoundation =
  (change: Change = () => {}): Change =>
  (d) => {
    d.temporaryWorks = {
      foundation: {
        name: 'Foundation of the tower',
        carries: { systems: ['tower'] },
        category: 3,
        designer: { name: 'A. Designer', organisation: 'Design office' },
        checker: { name: 'B. Checker', organisation: 'Checking office' },
        designed: { by: 'A. Designer', on: '2031-06-01' },
        checked: { by: 'B. Checker', on: '2031-07-01' },
        permitToLoad: { by: 'C. Coordinator', on: '2031-08-01' },
        figures: { bearing: { what: 'bearing under the pad', designed: 0.8, checked: 0.84 } },
        agreeWithin: 0.1,
      },
    }
    d.lifts.out.on = '2031-10-20'
    change(d)
  }

export const worksFixtures = {
  ...kind(
    worksReady,
    onFoundation((d) => {
      d.temporaryWorks.foundation.permitToLoad.on = '2031-10-21'
    }),
    onFoundation((d) => {
      delete d.temporaryWorks.foundation.checked
    }),
    onFoundation(),
  ),
  ...kind(
    worksIndependent,
    onFoundation((d) => {
      d.temporaryWorks.foundation.checker.organisation = 'Design office'
    }),
    onFoundation((d) => {
      delete d.temporaryWorks.foundation.checker
    }),
    onFoundation(),
  ),
  ...kind(
    worksFigures,
    onFoundation((d) => {
      d.temporaryWorks.foundation.figures.bearing.checked = 0.9
    }),
    onFoundation((d) => {
      delete d.temporaryWorks.foundation.figures.bearing.checked
    }),
    onFoundation(),
  ),
}
