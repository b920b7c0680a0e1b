import { formula } from '../working/formula.ts'

/** Share of the tail hook when both lines hang plumb. */
export const tailShare = formula({
  id: 'lift.turn.tail-share',
  title: 'Share of the tail hook, both lines plumb',
  source: { basis: 'derived', text: 'moments about the main hook; the same form stands in pressure vessel handbooks' },
  gives: ['F_tail', 'N'],
  from: {
    W: ['N', 'weight'],
    u_m: ['m', 'main point along the piece'],
    v_m: ['m', 'main point across, upward when flat'],
    u_t: ['m', 'tail point along'],
    v_t: ['m', 'tail point across'],
    u_c: ['m', 'centre of gravity along'],
    v_c: ['m', 'centre of gravity across'],
    theta: ['rad', 'angle of the piece from flat; 90° upright with the main point above'],
  },
  where: {
    x_m: ['m', 'u_m * cos(theta) - v_m * sin(theta)', 'main point in plan'],
    x_t: ['m', 'u_t * cos(theta) - v_t * sin(theta)', 'tail point in plan'],
    x_c: ['m', 'u_c * cos(theta) - v_c * sin(theta)', 'centre of gravity in plan'],
    F_main: ['N', 'W * (x_c - x_t) / (x_m - x_t)', 'share of the main hook'],
  },
  as: 'W - F_main',
  valid: ['abs(x_m - x_t) > 0'],
})

/** Load of a hook from the pull of its line. */
export const lineLoad = formula({
  id: 'lift.turn.line-load',
  title: 'Load of a hook from the pull of its line',
  source: { basis: 'derived', text: 'pull along the line / g' },
  gives: ['m', 'kg'],
  from: { T: ['N', 'pull along the hoist line'], g: ['m/s2', 'acceleration of gravity'] },
  as: 'T / g',
})

/** Horizontal force of a leaning hoist line. */
export const linePull = formula({
  id: 'lift.turn.horizontal',
  title: 'Horizontal force of a hoist line out of plumb',
  source: { basis: 'derived', text: 'T sin α' },
  gives: ['H', 'N'],
  from: { T: ['N', 'pull along the line'], alpha: ['rad', 'line from plumb'] },
  as: 'T * sin(alpha)',
})

/** Tension of a leg of a hook whose legs stand side by side across the turn. */
export const turnLeg = formula({
  id: 'lift.turn.leg',
  title: 'Tension of the more loaded leg, legs side by side across the turn',
  source: {
    basis: 'derived',
    text: 'equal shares, and the offset of the centre of gravity over the distance of the legs',
  },
  gives: ['T', 'N'],
  from: {
    F: ['N', 'pull of the hook'],
    n: ['1', 'legs'],
    e: ['m', 'offset of the centre of gravity across, with the shift allowed for'],
    b: ['m', 'distance of the outer legs across'],
  },
  as: 'F / n + F * e / b',
  valid: ['b > 0', 'e >= 0'],
})

/** The same where the legs lean. */
export const leaningLeg = formula({
  id: 'lift.turn.leaning-leg',
  title: 'Tension of a leg that leans across the turn',
  source: { basis: 'derived', text: 'vertical equilibrium of its own share' },
  gives: ['T', 'N'],
  from: { V: ['N', 'share of the leg, plumb'], beta: ['rad', 'angle of the flattest leg from the vertical'] },
  as: 'V / cos(beta)',
  valid: ['beta < 1.4', 'beta >= 0'],
})

/** Angle at which a hook goes slack: the centre of gravity plumb under, or over, the other one's point. */
export const slackAngle = formula({
  id: 'lift.turn.slack-angle',
  title: 'Angle at which the centre of gravity stands plumb under a point',
  source: {
    basis: 'derived',
    text: 'u cos θ = v sin θ of the point from the centre of gravity; holds for leaning lines too',
  },
  gives: ['theta', 'rad'],
  from: {
    u: ['m', 'point along the piece from the centre of gravity'],
    v: ['m', 'point across, upward when flat'],
  },
  as: 'atan2(u, v)',
  valid: ['abs(u) + abs(v) > 0'],
})

/** Least force that holds a piece on its main hook where no pair of pulls does. */
export const restraint = formula({
  id: 'lift.turn.restraint',
  title: 'Least force on the tail points that holds the piece where it would run over',
  source: { basis: 'derived', text: 'moments about the main point; the force square to the line between the points' },
  gives: ['F', 'N'],
  from: {
    W: ['N', 'weight'],
    x: ['m', 'main point from the plumb line of the centre of gravity'],
    L: ['m', 'distance of the main and the tail point'],
  },
  as: 'W * abs(x) / L',
  valid: ['L > 0'],
})

/** How shares follow the heights of the hooks. */
export const heightSensitivity = formula({
  id: 'lift.turn.height-sensitivity',
  title: 'Load that the main hook gains for each metre that it is raised against the tail hook, lines plumb',
  source: {
    basis: 'derived',
    text: 'dF/dθ = W C / D² of the share, dh/dθ = −D of the points, and the stretch of both lines; at D = 0 the lines alone: k_m k_t/(k_m + k_t)',
  },
  gives: ['S', 'N/m'],
  from: {
    W: ['N', 'weight'],
    x_m: ['m', 'main point from the centre of gravity in plan'],
    z_m: ['m', 'main point above it'],
    x_t: ['m', 'tail point in plan'],
    z_t: ['m', 'tail point above it'],
    k_m: ['N/m', 'stiffness of the main line, EA over its length'],
    k_t: ['N/m', 'stiffness of the tail line'],
  },
  where: {
    C: ['m2', 'x_t * z_m - z_t * x_m', 'twice the triangle of both points and the centre of gravity, signed'],
    D: ['m', 'x_m - x_t', 'distance of the points in plan'],
  },
  as: 'W * C / (W * C * (1 / k_m + 1 / k_t) - D^3)',
  valid: ['abs(W * C * (1 / k_m + 1 / k_t) - D^3) > 0'],
})

/** Hook heights between all of the load on one hook and all of it on the other. */
export const slackRange = formula({
  id: 'lift.turn.height-range',
  title: 'Difference of hook heights between all load on the tail hook and all on the main hook, near upright',
  source: {
    basis: 'derived',
    text: 'heights of the points where one of them is plumb with the centre of gravity, and the stretch of the line that carries all',
  },
  gives: ['h', 'm'],
  from: {
    W: ['N', 'weight'],
    u: ['m', 'main point from the centre of gravity, upright above it'],
    w: ['m', 'tail point from the centre of gravity, upright below it'],
    a: ['1', 'cosine of the angle between the two; −1 in line'],
    k_m: ['N/m', 'stiffness of the main line, EA over its length'],
    k_t: ['N/m', 'stiffness of the tail line'],
  },
  as: '(u - w) * (1 + a) + W * (1 / k_m + 1 / k_t)',
})
