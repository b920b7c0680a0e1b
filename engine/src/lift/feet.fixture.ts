import { type Change, kind } from './fixture.ts'
import type { Document } from './small.fixture.ts'
import { craneBase, towerLeg, towerLifts } from './systemKinds.ts'

/** The small project's tower on four legs of four wheels. */
export const onLegs: Change = (d) => {
  Object.assign(d.systems.tower, {
    selfMass: '60 t',
    header: '20 t',
    horizontalShare: '2 %',
    sail: { area: '20 m2', drag: 1.6, height: '8 m' },
    underLeg: { wheels: 4, wheelLoad: '150 kN' },
    legs: Object.fromEntries(
      [-6, 6].flatMap((x) =>
        [-3, 3].map((offset) => [`L${x}${offset}`.replaceAll('-', 'm'), { x: `${x} m`, offset: `${offset} m` }]),
      ),
    ),
  })
}

/** The small project's tower changed to a crane on floats, 8 m from the load. */
export const onFloats: Change = (d) => {
  const { tower } = d.systems
  Object.assign(tower, {
    kind: 'mobile crane',
    selfMass: '48 t',
    ownOffset: '-1 m',
    outriggers: { base: ['7 m', '6.5 m'], mat: ['2 m', '2 m'] },
  })
  for (const lift of Object.values(d.lifts) as Document[]) lift.radius = '8 m'
}

const then =
  (first: Change, next: Change): Change =>
  (d: Document) => {
    first(d)
    next(d)
  }

export const feetFixtures = {
  ...kind(
    towerLeg,
    then(onLegs, (d) => {
      d.systems.tower.underLeg.wheelLoad = '40 kN'
    }),
    then(onLegs, (d) => {
      delete d.systems.tower.underLeg
    }),
    onLegs,
  ),
  ...kind(
    towerLifts,
    then(onLegs, (d) => {
      d.systems.tower.horizontalShare = '40 %'
    }),
    then(onLegs, (d) => {
      delete d.systems.tower.sail
    }),
    onLegs,
  ),
  ...kind(
    craneBase,
    then(onFloats, (d) => {
      d.lifts.out.radius = '18 m'
    }),
    then(onFloats, (d) => {
      delete d.systems.tower.ownOffset
    }),
    onFloats,
  ),
}
