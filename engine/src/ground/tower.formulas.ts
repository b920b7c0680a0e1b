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
  title: 'Uplift of a leg with the factor required',
  source: { basis: 'derived', text: 'factor on the overturning side' },
  gives: ['U_d', 'N'],
  from: { gamma: ['1', 'required factor against uplift'], U: ['N', 'uplift that the wind couple makes'] },
  as: 'gamma * U',
})
