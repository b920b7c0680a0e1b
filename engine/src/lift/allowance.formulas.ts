import { formula } from '../working/formula.ts'

/** Factor for dynamics in air by a marine guideline. */
export const dynamicFactor = formula({
  id: 'lift.allowance.dynamics',
  title: 'Dynamic amplification in air',
  source: {
    basis: 'read',
    text: '0027/ND Table 5-1: on land 1.10 up to 100 t, 1.05 to 1000 t, 1.03 above; a crawler travelling with load 1.07 + 0.05 √(100 t/W) up to 100 t, 1.12 to 300 t, 1.10 to 1000 t, 1.08 to 2500 t, 1.05 above; under 3 t as for 3 t',
  },
  gives: ['D', '1'],
  from: {
    m: ['kg', 'static hook load'],
    t: ['kg', 'one tonne'],
    c: ['1', '1 where a crawler travels with the load, else 0'],
  },
  where: { q: ['1', 'max(m / t, 3)', 'tonnes, 3 at least'] },
  as: 'if(c > 0, if(q <= 100, 1.07 + 0.05 * sqrt(100 / q), if(q <= 300, 1.12, if(q <= 1000, 1.1, if(q <= 2500, 1.08, 1.05)))), if(q <= 100, 1.1, if(q <= 1000, 1.05, 1.03)))',
  valid: ['m > 0', 't > 0'],
})

/** Factor for yaw by a marine guideline. */
export const yawFactor = formula({
  id: 'lift.allowance.yaw',
  title: 'Factor for yaw where two or more slings hang from a hook',
  source: { basis: 'read', text: '0027/ND 5.4: 1.05 in a lift by two hooks with two or more slings at each' },
  gives: ['Y', '1'],
  from: { n: ['1', 'slings at a hook'] },
  as: 'if(n >= 2, 1.05, 1)',
  valid: ['n >= 1'],
})

/** Design mass. */
export const designMass = formula({
  id: 'lift.allowance.contingency',
  title: 'Mass with its contingency',
  source: {
    basis: 'memory',
    text: 'DNV-ST-N001, weight control, after ISO 19901-5: 1.03 weighed, 1.05 calculated in class A, 1.10 in classes B and C',
  },
  gives: ['M', 'kg'],
  from: { m: ['kg', 'mass'], f: ['1', 'factor by the basis of the mass'] },
  as: 'm * f',
  valid: ['f >= 1'],
})
