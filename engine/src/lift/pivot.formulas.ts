import { formula } from '../working/formula.ts'

/** Pull of the hook on a piece that turns about an edge or trunnion on the ground. */
export const pivotHook = formula({
  id: 'lift.pivot.hook',
  title: 'Pull of the hook on a piece turned about its pivot',
  source: { basis: 'derived', text: 'moments about the pivot, the line out of plumb by α' },
  gives: ['F', 'N'],
  from: {
    W: ['N', 'weight'],
    x_c: ['m', 'centre of gravity from the pivot in plan'],
    x_l: ['m', 'lifting points from the pivot in plan'],
    z_l: ['m', 'lifting points above the pivot'],
    alpha: ['rad', 'line from plumb, leaning to the side of x'],
  },
  as: 'W * x_c / (x_l * cos(alpha) - z_l * sin(alpha))',
  valid: ['abs(x_l * cos(alpha) - z_l * sin(alpha)) > 0'],
})

/** Upright reaction of the pivot. */
export const pivotReaction = formula({
  id: 'lift.pivot.reaction',
  title: 'Upright reaction at the pivot',
  source: { basis: 'derived', text: 'ΣF upright' },
  gives: ['R', 'N'],
  from: {
    W: ['N', 'weight'],
    F: ['N', 'pull of the hook'],
    alpha: ['rad', 'line from plumb'],
  },
  as: 'W - F * cos(alpha)',
})

/** Horizontal force that slides the pivot. */
export const pivotAcross = formula({
  id: 'lift.pivot.across',
  title: 'Horizontal force at the pivot',
  source: { basis: 'derived', text: 'ΣF across: what the leaning line pulls' },
  gives: ['H', 'N'],
  from: { F: ['N', 'pull of the hook'], alpha: ['rad', 'line from plumb'] },
  as: 'abs(F * sin(alpha))',
})

/** What friction at the pivot holds. */
export const pivotFriction = formula({
  id: 'lift.pivot.friction',
  title: 'Horizontal force that friction at the pivot holds',
  source: { basis: 'derived', text: 'Coulomb friction; the coefficient is the project’s' },
  gives: ['H', 'N'],
  from: { mu: ['1', 'coefficient of friction'], R: ['N', 'upright reaction'] },
  as: 'mu * R',
  valid: ['mu >= 0', 'R >= 0'],
})

/** Load of the edge on the ground. */
export const edgeLoad = formula({
  id: 'lift.pivot.edge-load',
  title: 'Load of the edge on the ground',
  source: { basis: 'derived', text: 'reaction spread evenly over the edge' },
  gives: ['q', 'N/m'],
  from: { R: ['N', 'upright reaction'], b: ['m', 'length of the edge that bears'] },
  as: 'R / b',
  valid: ['b > 0'],
})
