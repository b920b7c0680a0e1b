import { formula } from '../working/formula.ts'

export const pileLoad = formula({
  id: 'ground.tower.pile',
  title: 'Load of one pile under a leg',
  source: { basis: 'derived', text: 'shared evenly by the piles that carry the leg' },
  gives: ['P', 'N'],
  from: { V: ['N', 'load of the leg'], n: ['1', 'piles under the leg'] },
  as: 'V / n',
  valid: ['n > 0'],
})

export const withFactor = formula({
  id: 'ground.tower.with-factor',
  title: 'What a storm does, with the factor required',
  source: { basis: 'derived', text: 'factor on the side that overturns or pushes away' },
  gives: ['U_d', 'N'],
  from: { gamma: ['1', 'required factor'], U: ['N', 'uplift of a leg by the wind couple, or push of the wind'] },
  as: 'gamma * U',
})

export const stormFriction = formula({
  id: 'ground.tower.storm-friction',
  title: 'Friction that holds a tower in a storm',
  source: {
    basis: 'derived',
    text: 'friction on the share of the weight whose wheels are kept from turning; a wheel that turns holds nothing',
  },
  gives: ['R', 'N'],
  from: {
    mu: ['1', 'friction that may be counted'],
    s: ['1', 'share of the weight that it acts on'],
    W: ['N', 'own weight of the tower'],
  },
  as: 'mu * s * W',
  valid: ['s >= 0', 's <= 1'],
})
