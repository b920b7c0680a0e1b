import { formula } from '../working/formula.ts'

export const toolPush = formula({
  id: 'ground.break-in.tools',
  title: 'Push of the tools that break the wall at the eye',
  source: {
    basis: 'common practice',
    text: 'common practice, no source: all tools bear at once; the push of one by its maker or a trial in the same concrete',
  },
  gives: ['F', 'N'],
  from: { n: ['1', 'tools'], P: ['N', 'push of one that breaks the wall'] },
  as: 'n * P',
})

export const toolTorque = formula({
  id: 'ground.break-in.torque',
  title: 'Torque that turns the head while its tools break the wall',
  source: { basis: 'derived', text: 'moment of the drag of all tools about the axis; seals and bearing are not in it' },
  gives: ['T', 'N m'],
  from: {
    F: ['N', 'push of the tools'],
    c: ['1', 'drag of a tool as a share of its push'],
    r: ['m', 'mean radius of their tracks'],
  },
  as: 'F * c * r',
})

export const skinHolds = formula({
  id: 'ground.break-in.skin-holds',
  title: 'Moment of skin friction that keeps a shield in the ground from rolling',
  source: { basis: 'derived', text: 'friction on the whole skin, at the radius of the shell' },
  gives: ['M', 'N m'],
  from: {
    D: ['m', 'diameter'],
    L: ['m', 'length in the ground'],
    f: ['Pa', 'friction on the skin that may be counted on'],
  },
  as: 'pi * D * L * f * D / 2',
})

export const bedHolds = formula({
  id: 'ground.restart.bed-holds',
  title: 'Moment of friction that keeps a shield on its bed from rolling',
  source: {
    basis: 'derived',
    text: 'reactions of a fitted saddle pass through the axis; Σ N = 2 W sin α/(α + sin α cos α), friction at the radius of the bed',
  },
  gives: ['M', 'N m'],
  from: {
    mu: ['1', 'friction between shell and bed that may be counted on'],
    W: ['N', 'weight on the bed'],
    R: ['m', 'radius of the bed'],
    alpha: ['rad', 'half angle of the contact arc'],
  },
  as: 'mu * W * R * 2 * sin(alpha) / (alpha + sin(alpha) * cos(alpha))',
  valid: ['alpha > 0', 'alpha <= pi / 2'],
})

export const offsetMoment = formula({
  id: 'ground.restart.offset',
  title: 'Moment about the axis of a weight that lies to one side',
  source: { basis: 'derived', text: 'moment of a force' },
  gives: ['M', 'N m'],
  from: { W: ['N', 'weight'], e: ['m', 'its centre of gravity off the axis, sideways'] },
  as: 'W * e',
  valid: ['e >= 0'],
})

export const rolled = formula({
  id: 'ground.drive-in.rolled',
  title: 'Roll of the machine, to either side',
  source: { basis: 'derived', text: 'size of the angle' },
  gives: ['rho', 'rad'],
  from: { phi: ['rad', 'roll as surveyed, positive to the right'] },
  as: 'abs(phi)',
})
