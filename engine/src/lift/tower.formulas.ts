import { formula } from '../working/formula.ts'

export const legLoad = formula({
  id: 'lift.tower.leg',
  title: 'Vertical load of one tower leg, at rest',
  source: { basis: 'derived', text: 'header as a beam on two rails; own mass shared evenly' },
  gives: ['V', 'N'],
  from: {
    g: ['m/s2', 'gravity'],
    m_own: ['kg', 'own mass of the tower'],
    n: ['1', 'legs'],
    m_hook: ['kg', 'hook load with block and links'],
    x: ['m', 'hook'],
    x_leg: ['m', 'rail of this leg'],
    x_far: ['m', 'other rail'],
    n_rail: ['1', 'legs on this rail'],
  },
  as: 'g * (m_own / n + m_hook * (x - x_far) / (x_leg - x_far) / n_rail)',
})

export const couple = formula({
  id: 'lift.tower.couple',
  title: 'Vertical load that a horizontal force adds to one leg and takes from another',
  source: { basis: 'derived', text: 'moment about the rail over the distance of the legs' },
  gives: ['V', 'N'],
  from: {
    F: ['N', 'horizontal force'],
    h: ['m', 'its height above the rail'],
    b: ['m', 'distance of the legs that way'],
    n_side: ['1', 'legs on one side'],
  },
  as: 'F * h / (b * n_side)',
  valid: ['b > 0'],
})

export const travelForce = formula({
  id: 'lift.tower.travel-force',
  title: 'Horizontal force when the tower travels or stops',
  source: { basis: 'derived', text: 'share that the maker states, of the moving weight' },
  gives: ['F', 'N'],
  from: {
    s: ['1', 'horizontal load as a share'],
    g: ['m/s2', 'gravity'],
    m_up: ['kg', 'header, trolleys, block and load'],
  },
  as: 's * g * m_up',
})

export const windForce = formula({
  id: 'lift.tower.wind-force',
  title: 'Wind on the tower',
  source: { basis: 'derived', text: 'q = ½ ρ v², drag on the area' },
  gives: ['F', 'N'],
  from: {
    rho: ['kg/m3', 'density of air'],
    v: ['m/s', 'gust'],
    A: ['m2', 'area'],
    c: ['1', 'drag coefficient'],
  },
  as: '0.5 * rho * v^2 * A * c',
})

export const legRating = formula({
  id: 'lift.tower.leg-rating',
  title: 'Load that one leg may bring down on its wheels',
  source: { basis: 'derived', text: 'wheels under the leg × load of one wheel; balanced by the bogies' },
  gives: ['V', 'N'],
  from: { n: ['1', 'wheels under the leg'], P: ['N', 'largest load of one wheel'] },
  as: 'n * P',
})
