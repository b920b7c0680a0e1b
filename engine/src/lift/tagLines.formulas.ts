import { formula } from '../working/formula.ts'

/** Moment that brings a hanging piece about with a crane that starts or stops slewing. */
export const slewMoment = formula({
  id: 'lift.slew.moment',
  title: 'Moment that turns the piece with the crane as it starts or stops slewing',
  source: {
    basis: 'derived',
    text: 'moment of inertia about the plumb line through the centre of gravity × speed of slewing / time in which it is reached evenly; the hook gives no moment of its own',
  },
  gives: ['T', 'N m'],
  from: {
    J: ['kg m2', 'moment of inertia about the plumb line, as it hangs'],
    w: ['rad/s', 'speed of slewing'],
    t: ['s', 'time from rest to that speed'],
  },
  as: 'J * w / t',
  valid: ['t > 0'],
})

/** Pull in each tag line that keeps a hanging piece from turning in the wind, and brings it about with a crane that slews. */
export const tagLinePull = formula({
  id: 'lift.wind.tag-line-pull',
  title: 'Pull in each tag line that keeps the piece from turning in the wind and brings it about with the crane',
  source: {
    basis: 'derived',
    text: 'moment of the drag about the hoist line, q·C·S with q = ½ρv², and that of slewing, both at once, over the level levers of the lines; lines square to their levers, sloping down to the people who hold them',
  },
  gives: ['P', 'N'],
  from: {
    v: ['m/s', 'gust at which the lift stops'],
    rho: ['kg/m3', 'density of air'],
    C: ['1', 'drag coefficient'],
    S: ['m3', 'sail area × how far its middle lies beside the hoist line'],
    T: ['N m', 'moment of slewing'],
    n: ['1', 'tag lines that pull'],
    r: ['m', 'distance of the lines from the hoist line, in plan'],
    beta: ['rad', 'slope of the lines below the level'],
  },
  as: '(rho / 2 * v^2 * C * S + T) / (n * r * cos(beta))',
  valid: ['n >= 1', 'r > 0', 'beta >= 0', 'beta < 1.4'],
})
