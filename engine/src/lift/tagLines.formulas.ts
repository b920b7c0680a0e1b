import { formula } from '../working/formula.ts'

/** Pull in each tag line that keeps a hanging piece from turning in the wind. */
export const tagLinePull = formula({
  id: 'lift.wind.tag-line-pull',
  title: 'Pull in each tag line that keeps the piece from turning in the wind',
  source: {
    basis: 'derived',
    text: 'moment of the drag about the hoist line, q·C·S with q = ½ρv², over the level levers of the lines; lines square to their levers, sloping down to the people who hold them',
  },
  gives: ['P', 'N'],
  from: {
    v: ['m/s', 'gust at which the lift stops'],
    rho: ['kg/m3', 'density of air'],
    C: ['1', 'drag coefficient'],
    S: ['m3', 'sail area × how far its middle lies beside the hoist line'],
    n: ['1', 'tag lines that pull'],
    r: ['m', 'distance of the lines from the hoist line, in plan'],
    beta: ['rad', 'slope of the lines below the level'],
  },
  as: 'rho / 2 * v^2 * C * S / (n * r * cos(beta))',
  valid: ['n >= 1', 'r > 0', 'beta >= 0', 'beta < 1.4'],
})
