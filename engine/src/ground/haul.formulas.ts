import { formula } from '../working/formula.ts'

export const lineShare = formula({
  id: 'ground.haul.axle-line',
  title: 'Load of one axle line',
  source: {
    basis: 'derived',
    text: 'even shares of a levelled platform trailer; its centre of gravity over the middle of its lines',
  },
  gives: ['m_l', 'kg'],
  from: { m: ['kg', 'mass of trailer and load'], n: ['1', 'axle lines'] },
  as: 'm / n',
  valid: ['n >= 1'],
})
