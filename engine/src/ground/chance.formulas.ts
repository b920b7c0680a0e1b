import { formula } from '../working/formula.ts'

export const apartSpread = formula({
  id: 'ground.chance.apart',
  title: 'Standard deviation of how far two neighbouring piles part',
  source: {
    basis: 'derived',
    text: 'difference of two independent deviations, each the tolerance over so many standard deviations',
  },
  gives: ['sigma', 'm'],
  from: {
    d: ['m', 'deviation of one pile by its tolerance'],
    k: ['1', 'standard deviations that the tolerance stands for'],
  },
  as: 'sqrt(2) * d / k',
  valid: ['k > 0'],
})

export const heldMargin = formula({
  id: 'ground.chance.margin',
  title: 'What holds a joint closed beyond what opens it',
  source: { basis: 'derived', text: 'difference' },
  gives: ['M', 'N'],
  from: { R: ['N', 'what holds it'], F: ['N', 'what opens it'] },
  as: 'R - F',
})

export const heldSpread = formula({
  id: 'ground.chance.held-spread',
  title: 'Standard deviation of that margin',
  source: { basis: 'derived', text: 'force and hold independent of each other' },
  gives: ['sigma', 'N'],
  from: {
    R: ['N', 'what holds a joint'],
    c_R: ['1', 'its standard deviation as a share'],
    F: ['N', 'what opens it'],
    c_F: ['1', 'its standard deviation as a share'],
  },
  as: 'sqrt((c_R * R)^2 + (c_F * F)^2)',
})
