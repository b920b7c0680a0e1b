import { kind } from './fixture.ts'
import { lugFoot, lugParent, lugTested, lugWeld } from './kinds.ts'
import type { Document } from './small.fixture.ts'

/** Every lug of the block, changed. */
export const everyLug =
  (change: (lug: Document) => void) =>
  (d: Document): void => {
    for (const point of Object.values(d.pieces.block.points) as Document[]) change(point.lug)
  }

/** Cases of what carries the load between rigging and piece. */
export const structureFixtures = {
  ...kind(
    lugFoot,
    everyLug((lug) => {
      lug.foot = '60 mm'
    }),
    everyLug((lug) => {
      delete lug.axis
    }),
  ),
  ...kind(
    lugWeld,
    everyLug((lug) => {
      lug.weld.throat = '2 mm'
    }),
    everyLug((lug) => {
      delete lug.weld.throat
    }),
  ),
  ...kind(
    lugParent,
    everyLug((lug) => {
      lug.parent.thickness = '8 mm'
      lug.parent.span = '400 mm'
    }),
    everyLug((lug) => {
      delete lug.parent.span
    }),
  ),
  ...kind(
    lugTested,
    everyLug((lug) => {
      lug.weld.ndt.passed = false
    }),
    everyLug((lug) => {
      delete lug.weld.ndt
    }),
  ),
}
