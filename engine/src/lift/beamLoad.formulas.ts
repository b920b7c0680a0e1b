import { formula } from '../working/formula.ts'

/** A load with its factor. */
export const factored = formula({
  id: 'lift.beam.factored',
  title: 'Load with its factor',
  source: { basis: 'derived', text: 'load × factor; once, on the load side' },
  gives: ['F_d', 'N'],
  from: { F: ['N', 'load'], k: ['1', 'factor'] },
  as: 'F * k',
})

/** Sag that is allowed. */
export const sagAllowed = formula({
  id: 'lift.beam.sag-allowed',
  title: 'Sag that is allowed',
  source: { basis: 'common practice', text: "share of the span or arm, the project's own; no source" },
  gives: ['d', 'm'],
  from: { L: ['m', 'span, or arm'], s: ['1', 'share that is allowed'] },
  as: 'L * s',
})

/** Distance between the middles of the flanges. */
export const betweenFlanges = formula({
  id: 'lift.section.between-flanges',
  title: 'Distance between the middles of the flanges',
  source: { basis: 'derived', text: 'depth less one flange' },
  gives: ['h_o', 'm'],
  from: { h: ['m', 'depth'], t_f: ['m', 'flange'] },
  as: 'h - t_f',
})

/** Weight of a beam per length. */
export const weightPerLength = formula({
  id: 'lift.beam.weight',
  title: 'Own weight of a beam per length',
  source: { basis: 'derived', text: 'mass × gravity over its length between the ends' },
  gives: ['w', 'N/m'],
  from: { m: ['kg', 'own mass'], g: ['m/s2', 'gravity'], L: ['m', 'between its ends'] },
  as: 'm * g / L',
  valid: ['L > 0'],
})

/** Twice an arm: from end to end of a beam that is held in its middle. */
export const bothArms = formula({
  id: 'lift.beam.both-arms',
  title: 'Length from end to end',
  source: { basis: 'derived', text: 'twice the longer arm' },
  gives: ['L', 'm'],
  from: { a: ['m', 'arm'] },
  as: '2 * a',
})

/** Part of a force along or across a line. */
export const forcePart = formula({
  id: 'lift.beam.force-part',
  title: 'Part of a pull along a direction',
  source: { basis: 'derived', text: 'pull × share in this attitude × cosine' },
  gives: ['F', 'N'],
  from: {
    T: ['N', 'pull'],
    k: ['1', 'cosine between pull and direction'],
  },
  as: 'T * abs(k)',
})

/** Moment of a pull along a beam off its axis. */
export const eccentricMoment = formula({
  id: 'lift.beam.eccentric-moment',
  title: 'Moment of a pull along the beam, off its axis',
  source: { basis: 'derived', text: 'pull × distance from the axis' },
  gives: ['M_H', 'N m'],
  from: { H: ['N', 'pull along the beam'], e: ['m', 'off its axis'] },
  as: 'H * e',
})
