import { formula } from '../working/formula.ts'

export const factoredPush = formula({
  id: 'ground.splitting.factored-push',
  title: 'Outward push with the load factor',
  source: { basis: 'derived', text: 'factor on the load' },
  gives: ['H_d', 'N/m'],
  from: { gamma_F: ['1', 'partial factor on the load'], H: ['N/m', 'outward push per metre along the cradle'] },
  as: 'gamma_F * H',
})

export const barsAcross = formula({
  id: 'ground.splitting.bars-across',
  title: 'Tension that bars across a cradle hold, per metre along it',
  source: {
    basis: 'memory',
    text: 'EN 1992-1-1:2004 3.2.7, 2.4.2.4: f_yd = f_yk/γ_S on the area of the bars; concrete holds none',
  },
  gives: ['R', 'N/m'],
  from: {
    n: ['1', 'layers of bars'],
    d: ['m', 'diameter of a bar'],
    s: ['m', 'from bar to bar'],
    f_yk: ['Pa', 'yield strength'],
    gamma_s: ['1', 'partial factor on the strength of reinforcement'],
  },
  as: 'n * pi * d^2 / 4 / s * f_yk / gamma_s',
  valid: ['s > 0'],
})

export const burst = formula({
  id: 'ground.splitting.burst',
  title: 'Tension that bursts the concrete under a plate',
  source: {
    basis: 'memory',
    text: 'EN 1992-1-1:2004 6.5.3 (3): T = F/4 (1 − a/b); the loaded width a taken as nothing, a bound for every spread',
  },
  gives: ['T', 'N'],
  from: { gamma_F: ['1', 'partial factor on the load'], F: ['N', 'load of the plate'] },
  as: 'gamma_F * F / 4',
})

export const barsUnder = formula({
  id: 'ground.splitting.bars-under',
  title: 'Tension that bars under a plate hold one way',
  source: {
    basis: 'memory',
    text: 'EN 1992-1-1:2004 3.2.7, 2.4.2.4: f_yd = f_yk/γ_S on the area of the bars; concrete holds none',
  },
  gives: ['R', 'N'],
  from: {
    n: ['1', 'bars or legs that cross that way'],
    d: ['m', 'diameter of a bar'],
    f_yk: ['Pa', 'yield strength'],
    gamma_s: ['1', 'partial factor on the strength of reinforcement'],
  },
  as: 'n * pi * d^2 / 4 * f_yk / gamma_s',
})
