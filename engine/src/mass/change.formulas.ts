import { formula, type Source } from '../working/formula.ts'

const derived = (text: string): Source => ({ basis: 'derived', text })

export const renewedMass = formula({
  id: 'mass.change.renewed',
  title: 'Mass of what takes the place of the old',
  source: derived('share of the old mass that the change register gives'),
  gives: ['M', 'kg'],
  from: { f: ['1', 'new as a share of the old'], m: ['kg', 'old mass, or its uncertainty'] },
  as: 'f * m',
})

export const sharedMass = formula({
  id: 'mass.change.share',
  title: 'Share of a mass added to several like parts',
  source: derived('equal shares of the total'),
  gives: ['M', 'kg'],
  from: {
    m: ['kg', 'mass added to all of them together'],
    n: ['1', 'of them in the set'],
    N: ['1', 'of them in the machine'],
  },
  as: 'm * n / N',
})

export const unexplainedMass = formula({
  id: 'mass.weighed.unexplained',
  title: 'Weighed mass that nobody has explained',
  source: derived('the load cells feel what is retained as well, so it is in both'),
  gives: ['D', 'kg'],
  from: {
    W: ['kg', 'weighed mass, net of rigging'],
    M: ['kg', 'expected mass: parts, and what is stated to be retained'],
  },
  as: 'W - M',
})

export const weighedNet = formula({
  id: 'mass.weighed.net',
  title: 'Weighed mass without what is retained',
  source: derived('the load cells feel muck, grease, oil and water as well'),
  gives: ['net', 'kg'],
  from: { W: ['kg', 'weighed mass, net of rigging'], ret: ['kg', 'retained matter stated'] },
  as: 'W - ret',
})

export const carriedMass = formula({
  id: 'mass.returned.carried',
  title: 'What is left of the weighed piece when it goes back',
  source: derived('weighed mass less what was removed'),
  gives: ['C', 'kg'],
  from: { W: ['kg', 'weighed mass, net of rigging'], R: ['kg', 'mass of what was removed, as computed'] },
  as: 'W - R',
})

export const returnedExpected = formula({
  id: 'mass.returned.expected',
  title: 'Mass expected to hang when the piece goes back',
  source: derived('weighed mass less what was removed and cleaned off, plus what is new'),
  gives: ['M', 'kg'],
  from: {
    C: ['kg', 'weighed mass less parts removed'],
    cleaned: ['kg', 'retained matter taken off before the piece goes back'],
    N: ['kg', 'mass of what is new'],
  },
  as: 'C - cleaned + N',
})

export const returnedLower = formula({
  id: 'mass.returned.lower',
  title: 'Lower design mass of a piece that goes back',
  source: derived('weighed mass less what was retained and what was removed, plus what is new, less the uncertainty'),
  gives: ['M', 'kg'],
  from: {
    C: ['kg', 'weighed mass less parts removed'],
    ret: ['kg', 'retained matter when weighed'],
    N: ['kg', 'mass of what is new'],
    u: ['kg', 'standard uncertainty'],
  },
  as: 'C - ret + N - u',
})

export const cleanedMass = formula({
  id: 'mass.returned.cleaned',
  title: 'Retained matter taken off before the piece goes back',
  source: derived('retained when it came out, less what is stated to go back with it'),
  gives: ['m', 'kg'],
  from: { out: ['kg', 'retained when it came out'], back: ['kg', 'retained when it goes back'] },
  as: 'out - back',
})

export const carriedAllowance = formula({
  id: 'mass.returned.allowance',
  title: 'Allowance and unexplained difference of a piece that goes back',
  source: derived('the allowance on the weighed part, those on what is new, and the difference nobody has explained'),
  gives: ['A', 'kg'],
  from: { D: ['kg', 'weighed mass that nobody has explained'], A: ['kg', 'allowances'] },
  as: 'D + A',
})
