import { formula } from '../working/formula.ts'

export const lineLoad = formula({
  id: 'ground.cradle.line-load',
  title: 'Largest load per metre along the cradle',
  source: { basis: 'derived', text: 'linear along the cradle, no tension; contact shortens beyond e = L/6' },
  gives: ['w', 'N/m'],
  from: {
    W: ['N', 'weight that stands on the cradle'],
    L: ['m', 'length of the cradle'],
    e: ['m', 'distance of the centre of gravity from its middle, along'],
  },
  as: 'if(e <= L / 6, W / L * (1 + 6 * e / L), 2 * W / (3 * (L / 2 - e)))',
  valid: ['e >= 0', 'e < L / 2'],
})

export const saddlePressure = formula({
  id: 'ground.cradle.saddle-pressure',
  title: 'Contact pressure at the bottom of a fitted saddle',
  source: { basis: 'derived', text: 'radial pressure p₀ cos θ over ±α carries w: w = p₀ R (α + sin α cos α)' },
  gives: ['p_0', 'Pa'],
  from: {
    w: ['N/m', 'load per metre'],
    R: ['m', 'radius of the bed'],
    alpha: ['rad', 'half angle of the contact arc'],
  },
  as: 'w / (R * (alpha + sin(alpha) * cos(alpha)))',
  valid: ['alpha > 0', 'alpha <= pi / 2'],
})

export const projectedPressure = formula({
  id: 'ground.cradle.projected-pressure',
  title: 'Contact pressure of a saddle, taken as even',
  source: { basis: 'derived', text: 'w = 2 p R sin α' },
  gives: ['p', 'Pa'],
  from: {
    w: ['N/m', 'load per metre'],
    R: ['m', 'radius of the bed'],
    alpha: ['rad', 'half angle of the contact arc'],
  },
  as: 'w / (2 * R * sin(alpha))',
  valid: ['alpha > 0', 'alpha <= pi / 2'],
})

export const stripNormal = formula({
  id: 'ground.cradle.strip-normal',
  title: 'Reaction of one of two strips',
  source: { basis: 'derived', text: 'vertical equilibrium; friction up the slope while it settles' },
  gives: ['N', 'N/m'],
  from: {
    w: ['N/m', 'load per metre'],
    beta: ['rad', 'angle of a strip from the bottom'],
    mu: ['1', 'friction mobilised'],
  },
  as: 'w / (2 * (cos(beta) + mu * sin(beta)))',
  valid: ['beta < pi / 2'],
})

export const stripPush = formula({
  id: 'ground.cradle.strip-push',
  title: 'Outward push of one of two strips',
  source: { basis: 'derived', text: 'horizontal part of reaction less friction' },
  gives: ['H', 'N/m'],
  from: {
    N: ['N/m', 'reaction of the strip'],
    beta: ['rad', 'angle of a strip from the bottom'],
    mu: ['1', 'friction mobilised'],
  },
  as: 'N * (sin(beta) - mu * cos(beta))',
})

export const rollFrictionStrips = formula({
  id: 'ground.cradle.roll-friction-strips',
  title: 'Friction that holds a sideways offset on two strips',
  source: { basis: 'derived', text: 'reactions pass through the axis and resist no roll; T = W e/(2R) on each strip' },
  gives: ['mu', '1'],
  from: {
    e: ['m', 'sideways offset of the centre of gravity'],
    R: ['m', 'radius of the shell'],
    beta: ['rad', 'angle of a strip from the bottom'],
  },
  as: 'e / R * cos(beta)',
})

export const rollFriction = formula({
  id: 'ground.cradle.roll-friction',
  title: 'Friction that holds a sideways offset on a fitted saddle',
  source: { basis: 'derived', text: 'reactions pass through the axis; Σ N = 2 W sin α/(α + sin α cos α), moment W e' },
  gives: ['mu', '1'],
  from: {
    e: ['m', 'sideways offset of the centre of gravity'],
    R: ['m', 'radius of the bed'],
    alpha: ['rad', 'half angle of the contact arc'],
  },
  as: 'e / R * (alpha + sin(alpha) * cos(alpha)) / (2 * sin(alpha))',
  valid: ['alpha > 0', 'alpha <= pi / 2', 'e >= 0'],
})

export const concreteBearing = formula({
  id: 'ground.cradle.concrete-bearing',
  title: 'Bearing strength of the concrete, no spread counted',
  source: { basis: 'memory', text: 'EN 1992-1-1:2004 6.7: f_cd √(A_c1/A_c0) ≤ 3 f_cd, the area ratio taken as one' },
  gives: ['sigma_R', 'Pa'],
  from: { f_ck: ['Pa', 'characteristic strength'], gamma_c: ['1', 'partial factor on concrete strength'] },
  as: 'f_ck / gamma_c',
})

export const partialArea = formula({
  id: 'ground.cradle.partial-area',
  title: 'Bearing strength under a partly loaded area',
  source: { basis: 'memory', text: 'EN 1992-1-1:2004 6.7; A_c1 similar in shape to A_c0; splitting steel needed' },
  gives: ['sigma_R', 'Pa'],
  from: {
    f_ck: ['Pa', 'characteristic strength'],
    gamma_c: ['1', 'partial factor on concrete strength'],
    A_0: ['m2', 'loaded area'],
    A_1: ['m2', 'largest area it spreads to'],
  },
  as: 'f_ck / gamma_c * min(sqrt(A_1 / A_0), 3)',
  valid: ['A_1 >= A_0'],
})

export const bearingPlates = formula({
  id: 'ground.cradle.bearing-aci',
  title: 'Bearing strength of concrete, strength design',
  source: { basis: 'memory', text: 'ACI 318-19 22.8.3.2, table 21.2.1: φ 0.85 f_c √(A2/A1), root not over 2' },
  gives: ['sigma_R', 'Pa'],
  from: { phi: ['1', 'strength reduction, 0.65'], f_c: ['Pa', 'specified strength'], ratio: ['1', '√(A2/A1)'] },
  as: 'phi * 0.85 * f_c * min(ratio, 2)',
})

export const slideIn = formula({
  id: 'ground.cradle.slide-in',
  title: 'Thrust that slides the shield along two strips up a slope',
  source: { basis: 'derived', text: 'friction on the sum of the reactions, which is more than the weight' },
  gives: ['F', 'N'],
  from: {
    W: ['N', 'weight on the cradle'],
    mu: ['1', 'friction'],
    beta: ['rad', 'angle of a strip from the bottom'],
    i: ['1', 'slope'],
  },
  as: 'mu * W / cos(beta) + W * i',
})

export const skinFriction = formula({
  id: 'ground.cradle.skin-friction',
  title: 'Friction of the shield skin still in the ground',
  source: { basis: 'derived', text: 'π D L f; guide values of f in the pipe jacking trade' },
  gives: ['F', 'N'],
  from: { D: ['m', 'diameter'], L: ['m', 'length in the ground'], f: ['Pa', 'skin friction'] },
  as: 'pi * D * L * f',
})

export const blockSliding = formula({
  id: 'ground.cradle.block-sliding',
  title: 'Factor of the cradle block against sliding',
  source: { basis: 'derived', text: 'friction under the block over the thrust' },
  gives: ['FS', '1'],
  from: {
    mu: ['1', 'friction under the block'],
    W_c: ['N', 'weight of the cradle'],
    W_m: ['N', 'weight of the machine on it'],
    F: ['N', 'thrust'],
  },
  as: 'mu * (W_c + W_m) / F',
})

export const tippingFactor = formula({
  id: 'ground.cradle.tipping',
  title: 'Factor against tipping over the end of the cradle',
  source: { basis: 'derived', text: 'half the length over the offset' },
  gives: ['FS', '1'],
  from: { L: ['m', 'length of the cradle'], e: ['m', 'offset of the centre of gravity, along'] },
  as: 'L / 2 / e',
  valid: ['e > 0'],
})

export const spanLength = formula({
  id: 'ground.cradle.length',
  title: 'Length between two places',
  source: { basis: 'derived', text: 'difference' },
  gives: ['L', 'm'],
  from: { x_1: ['m', 'one end'], x_2: ['m', 'other end'] },
  as: 'abs(x_2 - x_1)',
})

export const contactOffset = formula({
  id: 'ground.cradle.offset',
  title: 'Distance of the centre of gravity from the middle of the cradle, along',
  source: { basis: 'derived', text: 'plane geometry' },
  gives: ['e', 'm'],
  from: { x: ['m', 'centre of gravity'], x_1: ['m', 'one end of the cradle'], x_2: ['m', 'other end'] },
  as: 'abs(x - (x_1 + x_2) / 2)',
})

export const sidewaysOffset = formula({
  id: 'ground.cradle.sideways',
  title: 'Distance of the centre of gravity from the machine axis, sideways',
  source: { basis: 'derived', text: 'plane geometry; yaw within the shaft is not counted' },
  gives: ['e', 'm'],
  from: { y: ['m', 'centre of gravity'], y_axis: ['m', 'machine axis'] },
  as: 'abs(y - y_axis)',
})

export const facePush = formula({
  id: 'ground.cradle.face-push',
  title: 'Thrust against a pressure on the face',
  source: { basis: 'derived', text: 'p π D²/4; nothing once holed through' },
  gives: ['F', 'N'],
  from: { p: ['Pa', 'pressure on the face'], D: ['m', 'diameter'] },
  as: 'p * pi * D^2 / 4',
})

export const blockResistance = formula({
  id: 'ground.cradle.block-resistance',
  title: 'Thrust that the cradle block holds by friction',
  source: { basis: 'derived', text: 'friction under the block with the machine on it' },
  gives: ['R', 'N'],
  from: {
    mu: ['1', 'friction under the block'],
    W_c: ['N', 'weight of the cradle'],
    W_m: ['N', 'weight of the machine on it'],
  },
  as: 'mu * (W_c + W_m)',
})

export const jointCentre = formula({
  id: 'ground.cradle.joint-centre',
  title: 'Common centre of gravity of two',
  source: { basis: 'derived', text: 'first moments' },
  gives: ['x', 'm'],
  from: {
    m_1: ['kg', 'mass of the one'],
    x_1: ['m', 'its centre of gravity'],
    m_2: ['kg', 'mass of the other'],
    x_2: ['m', 'its centre of gravity'],
  },
  as: '(m_1 * x_1 + m_2 * x_2) / (m_1 + m_2)',
  valid: ['m_1 + m_2 > 0'],
})
