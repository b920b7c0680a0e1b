import { describe, expect, test } from 'vitest'
import { type Change, worstOfKind } from './fixture.ts'
import { worksIndependent, worksReady } from './kinds.ts'
import { liftsOf } from './small.fixture.ts'
import { onFoundation } from './works.fixture.ts'

const ready = (change: Change) => worstOfKind(worksReady.id, onFoundation(change))

describe('a lift that rests on a temporary work', () => {
  test.each(['designed', 'checked', 'permitToLoad'])(
    'is open while its "%s" is not there, and says where it is missing',
    (act) => {
      const { verdict, reasons } = ready((d) => {
        delete d.temporaryWorks.foundation[act]
      })
      expect(verdict).toBe('open')
      expect(reasons.join(' ')).toContain(`/temporaryWorks/foundation/${act}`)
    },
  )

  test('is open while an approval by others is not given', () => {
    const approvals = { owner: { of: 'Owner of the road beside it' } }
    expect(ready((d) => Object.assign(d.temporaryWorks.foundation, { approvals })).verdict).toBe('open')
  })

  test.each([
    ['its permit to load ended before', { permitToLoad: { by: 'C', on: '2031-08-01', until: '2031-10-19' } }],
    ['it may be taken away by then', { permitToUnload: { by: 'C', on: '2031-10-19' } }],
    ['it was let load before it was checked', { checked: { by: 'B', on: '2031-08-02' } }],
  ])('fails where %s', (_, change) => {
    expect(ready((d) => Object.assign(d.temporaryWorks.foundation, change)).verdict).toBe('fail')
  })

  test('may be loaded on the day of its permit and on the last day of it', () => {
    const permitToLoad = { by: 'C', on: '2031-10-20', until: '2031-10-20' }
    expect(
      ready((d) => Object.assign(d.temporaryWorks.foundation, { permitToLoad, carries: { lifts: ['out'] } })).verdict,
    ).toBe('pass')
  })
})

test.each([
  ['its machine', { systems: ['tower'] }, true],
  ['the lift itself', { lifts: ['out'] }, true],
  ['nothing of it', {}, false],
])('a work that carries %s is under the lift or not', (_, carries, under) => {
  const { checks } = liftsOf(onFoundation((d) => Object.assign(d.temporaryWorks.foundation, { carries })))
  const subjects = checks.filter(({ kind }) => kind === worksReady.id).map(({ subject }) => subject.id)
  expect(subjects.includes('out')).toBe(under)
})

test.each([
  [0, 'pass'],
  [1, 'fail'],
  [2, 'fail'],
  [3, 'fail'],
])('a work of category %i that its designer checked: %s', (category, verdict) => {
  const own = onFoundation((d) => {
    const { foundation } = d.temporaryWorks
    Object.assign(foundation, { category, checker: { ...foundation.designer } })
  })
  expect(worstOfKind(worksIndependent.id, own).verdict).toBe(verdict)
})
