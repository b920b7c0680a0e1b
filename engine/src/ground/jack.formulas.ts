import { formula } from '../working/formula.ts'

export const aheadLoad = formula({
  id: 'ground.jack.ahead',
  title: 'Load that a jack takes when it runs ahead of the others',
  source: {
    basis: 'derived',
    text: 'rigid body on equal springs: it follows the plane of least squares through the points, and what is left of the step loads the one ahead',
  },
  gives: ['N_d', 'N'],
  from: {
    k: ['N/m', 'stiffness of a point'],
    d: ['m', 'how far it runs ahead'],
    h: ['1', 'how far the plane follows it: leverage, 1 on three points'],
  },
  as: 'k * d * (1 - h)',
  valid: ['h <= 1', 'd >= 0'],
})
