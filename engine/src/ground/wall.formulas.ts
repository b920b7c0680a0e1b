import { formula } from '../working/formula.ts'

export const depthBelow = formula({
  id: 'ground.wall.depth',
  title: 'Depth below the collar',
  source: { basis: 'derived', text: 'difference of levels' },
  gives: ['depth', 'm'],
  from: { collar: ['m', 'level of the collar'], z: ['m', 'level'] },
  as: 'collar - z',
  valid: ['collar >= z'],
})

export const outerRadius = formula({
  id: 'ground.wall.outer-radius',
  title: 'Radius of the outer face of a secant wall',
  source: { basis: 'derived', text: 'circle of centres and half a pile' },
  gives: ['r_o', 'm'],
  from: { D_r: ['m', 'diameter of the circle of centres'], D: ['m', 'pile diameter'] },
  as: '(D_r + D) / 2',
})

export const twice = formula({
  id: 'ground.wall.diameter',
  title: 'Diameter of a radius',
  source: { basis: 'derived', text: 'twice the radius' },
  gives: ['D', 'm'],
  from: { r: ['m', 'radius'] },
  as: '2 * r',
})

export const innerRadius = formula({
  id: 'ground.wall.inner-radius',
  title: 'Radius of the inner face of a wall behind its lining',
  source: { basis: 'derived', text: 'clear radius and lining' },
  gives: ['r_i', 'm'],
  from: { D_clear: ['m', 'clear diameter'], lining: ['m', 'lining thickness'] },
  as: 'D_clear / 2 + lining',
})

export const radiusBeyond = formula({
  id: 'ground.wall.radius-beyond',
  title: 'Radius of the outer face of a wall',
  source: { basis: 'derived', text: 'inner face and thickness' },
  gives: ['r_o', 'm'],
  from: { r_i: ['m', 'inner face'], b: ['m', 'wall thickness'] },
  as: 'r_i + b',
})

export const half = formula({
  id: 'ground.wall.radius',
  title: 'Radius of a circle',
  source: { basis: 'derived', text: 'half the diameter' },
  gives: ['r', 'm'],
  from: { D: ['m', 'diameter'] },
  as: 'D / 2',
})

export const within = formula({
  id: 'ground.wall.mean-radius',
  title: 'Radius to the middle of a wall',
  source: { basis: 'derived', text: 'outer face less half the thickness' },
  gives: ['r', 'm'],
  from: { r_o: ['m', 'outer face'], t: ['m', 'thickness'] },
  as: 'r_o - t / 2',
})

export const innerFaceOf = formula({
  id: 'ground.wall.inner-face',
  title: 'Radius of the inner face of the thickness that carries',
  source: { basis: 'derived', text: 'outer face less thickness' },
  gives: ['r_i', 'm'],
  from: { r_o: ['m', 'outer face'], t: ['m', 'thickness that carries'] },
  as: 'r_o - t',
  valid: ['r_o > t'],
})
