import { formula } from '../working/formula.ts'

export const uplift = formula({
  id: 'ground.base.uplift-pressure',
  title: 'Water pressure under the plug',
  source: { basis: 'derived', text: 'head of the confined aquifer above the underside of the plug' },
  gives: ['u', 'Pa'],
  from: {
    gamma_w: ['N/m3', 'unit weight of water'],
    head: ['m', 'level to which the confined water rises'],
    bottom: ['m', 'underside of the plug'],
  },
  as: 'gamma_w * max(head - bottom, 0)',
})

export const factored = formula({
  id: 'ground.base.factored',
  title: 'Pressure with its partial factor',
  source: {
    basis: 'read',
    text: 'EN 1997-1:2004 2.4.7.4, V_dst,d ≤ G_stb,d + R_d, basic form; factors from the project',
  },
  gives: ['p_d', 'Pa'],
  from: { gamma: ['1', 'partial factor'], p: ['Pa', 'characteristic pressure'] },
  as: 'gamma * p',
})

export const upliftFactor = formula({
  id: 'ground.base.uplift-factor',
  title: 'Weight of the plug over the water pressure below it',
  source: { basis: 'derived', text: 'γ t / (γ_w h), no side resistance' },
  gives: ['FS', '1'],
  from: { sigma: ['Pa', 'weight above the underside of the plug, per area'], u: ['Pa', 'water pressure below it'] },
  as: 'sigma / u',
  valid: ['u > 0'],
})

export const upliftWithSides = formula({
  id: 'ground.base.uplift-with-sides',
  title: 'Plug weight and side adhesion over uplift',
  source: {
    basis: 'derived',
    text: 'vertical equilibrium; side term only inside a wall that reaches below the plug, on decision G4',
  },
  gives: ['FS', '1'],
  from: {
    gamma: ['N/m3', 'unit weight of the plug'],
    t: ['m', 'thickness of the plug'],
    D: ['m', 'inner diameter'],
    alpha: ['1', 'adhesion factor'],
    c_u: ['Pa', 'undrained strength'],
    gamma_w: ['N/m3', 'unit weight of water'],
    h: ['m', 'head above the underside of the plug'],
  },
  where: {
    W: ['N', 'gamma * t * pi * D^2 / 4', 'weight'],
    F: ['N', 'pi * D * t * alpha * c_u', 'side adhesion'],
    U: ['N', 'gamma_w * h * pi * D^2 / 4', 'uplift'],
  },
  as: '(W + F) / U',
})

export const headAllowed = formula({
  id: 'ground.base.head-allowed',
  title: 'Level to which the confined water may rise',
  source: { basis: 'derived', text: 'the uplift check solved for the head' },
  gives: ['head_c', 'm'],
  from: {
    resisting: ['Pa', 'design resistance per area'],
    gamma_d: ['1', 'partial factor on water pressure'],
    gamma_w: ['N/m3', 'unit weight of water'],
    bottom: ['m', 'underside of the plug'],
  },
  as: 'bottom + resisting / (gamma_d * gamma_w)',
})

export const timeToHead = formula({
  id: 'ground.base.time-to-head',
  title: 'Time from loss of the pumps to the critical head',
  source: { basis: 'derived', text: 'recovery that decays with one time constant, taken from the pumping test' },
  gives: ['time', 's'],
  from: {
    tau: ['s', 'time constant of recovery'],
    head_n: ['m', 'head at rest'],
    head_d: ['m', 'head drawn down'],
    head_c: ['m', 'critical head'],
  },
  as: 'tau * ln((head_n - head_d) / (head_n - max(head_c, head_d)))',
  valid: ['head_n > head_c', 'head_n > head_d'],
})

export const hydraulicHeave = formula({
  id: 'ground.base.hydraulic-heave',
  title: 'Hydraulic heave in total stress: factored pore pressure over factored stress',
  source: { basis: 'read', text: 'EN 1997-1:2004 2.4.7.5 eq. 2.9a, basic form; factors of table A.17 from memory' },
  gives: ['use', '1'],
  from: {
    gamma_dst: ['1', 'partial factor, destabilising'],
    u: ['Pa', 'pore pressure at the base of the column'],
    gamma_stb: ['1', 'partial factor, stabilising'],
    sigma: ['Pa', 'total vertical stress at the base of the column'],
  },
  as: 'gamma_dst * u / (gamma_stb * sigma)',
})

export const criticalGradient = formula({
  id: 'ground.base.critical-gradient',
  title: 'Critical hydraulic gradient',
  source: {
    basis: 'read',
    text: 'Terzaghi: (G_s − 1)/(1 + e), as hand calculations of an open support-of-excavation module use it',
  },
  gives: ['i_c', '1'],
  from: { G_s: ['1', 'specific gravity of grains'], e: ['1', 'void ratio'] },
  as: '(G_s - 1) / (1 + e)',
})

export const gradient = formula({
  id: 'ground.base.gradient',
  title: 'Mean hydraulic gradient along a flow path',
  source: { basis: 'derived', text: 'head lost over length' },
  gives: ['i', '1'],
  from: { h: ['m', 'head lost'], L: ['m', 'length of the path'] },
  as: 'h / L',
})

export const soilGradient = formula({
  id: 'ground.base.soil-gradient',
  title: 'Gradient at which upward seepage carries the weight of the ground',
  source: { basis: 'derived', text: "γ'/γ_w" },
  gives: ['i_c', '1'],
  from: { gamma: ['N/m3', 'unit weight, saturated'], gamma_w: ['N/m3', 'unit weight of water'] },
  as: '(gamma - gamma_w) / gamma_w',
})

export const flotation = formula({
  id: 'ground.base.flotation',
  title: 'Weight of shaft and plug, and friction, over buoyancy',
  source: {
    basis: 'derived',
    text: 'vertical equilibrium; water acts on the outside diameter at the level of the plug base',
  },
  gives: ['FS', '1'],
  from: {
    D_i: ['m', 'inner diameter'],
    D_o: ['m', 'outer diameter'],
    L: ['m', 'length of wall'],
    gamma_wall: ['N/m3', 'unit weight of the wall'],
    t: ['m', 'thickness of the plug'],
    gamma_plug: ['N/m3', 'unit weight of the plug'],
    tau: ['Pa', 'friction counted on the outside, zero unless decided (G4)'],
    gamma_w: ['N/m3', 'unit weight of water'],
    h: ['m', 'water above the plug base'],
  },
  where: {
    W_wall: ['N', 'gamma_wall * L * pi * (D_o^2 - D_i^2) / 4', 'weight of the wall'],
    W_plug: ['N', 'gamma_plug * t * pi * D_i^2 / 4', 'weight of the plug'],
    F: ['N', 'tau * L * pi * D_o', 'friction'],
    U: ['N', 'gamma_w * h * pi * D_o^2 / 4', 'buoyancy'],
  },
  as: '(W_wall + W_plug + F) / U',
})

export const plugThickness = formula({
  id: 'ground.base.plug-thickness',
  title: 'Plug thickness that holds by its own weight',
  source: { basis: 'derived', text: 'γ_c t = FS γ_w (h + t), water measured to the underside of the plug' },
  gives: ['t', 'm'],
  from: {
    FS: ['1', 'required factor'],
    gamma_w: ['N/m3', 'unit weight of water'],
    h: ['m', 'water above the top of the plug'],
    gamma_c: ['N/m3', 'unit weight of the plug'],
  },
  as: 'FS * gamma_w * h / (gamma_c - FS * gamma_w)',
  valid: ['gamma_c > FS * gamma_w'],
})

export const plugMomentCentre = formula({
  id: 'ground.base.plug-moment-centre',
  title: 'Moment at the centre of a simply supported round plug, per metre',
  source: { basis: 'memory', text: 'Timoshenko, Theory of Plates and Shells: p a² (3 + ν)/16, thin plate' },
  gives: ['M', 'N'],
  from: { p: ['Pa', 'net upward pressure'], a: ['m', 'radius'], nu: ['1', "Poisson's ratio"] },
  as: 'p * a^2 * (3 + nu) / 16',
})

export const plugMomentEdge = formula({
  id: 'ground.base.plug-moment-edge',
  title: 'Moment at the edge of a built-in round plug, per metre',
  source: { basis: 'memory', text: 'Timoshenko, Theory of Plates and Shells: p a²/8, thin plate' },
  gives: ['M', 'N'],
  from: { p: ['Pa', 'net upward pressure'], a: ['m', 'radius'] },
  as: 'p * a^2 / 8',
})

export const netPressure = formula({
  id: 'ground.base.net-pressure',
  title: 'Upward pressure less the weight of the plug',
  source: { basis: 'derived', text: 'vertical equilibrium per area' },
  gives: ['p', 'Pa'],
  from: {
    gamma_w: ['N/m3', 'unit weight of water'],
    h: ['m', 'head above the underside of the plug'],
    gamma_c: ['N/m3', 'unit weight of the plug'],
    t: ['m', 'thickness of the plug'],
  },
  as: 'gamma_w * h - gamma_c * t',
})

export const headLost = formula({
  id: 'ground.base.head-lost',
  title: 'Head lost between the confined water and the base',
  source: { basis: 'derived', text: 'the base is kept dry' },
  gives: ['h', 'm'],
  from: { head: ['m', 'level to which the confined water rises'], base: ['m', 'level of the base'] },
  as: 'max(head - base, 0)',
})

export const thicknessOf = formula({
  id: 'ground.base.thickness',
  title: 'Thickness between two levels',
  source: { basis: 'derived', text: 'difference of levels' },
  gives: ['t', 'm'],
  from: { top: ['m', 'upper level'], bottom: ['m', 'lower level'] },
  as: 'top - bottom',
  valid: ['top > bottom'],
})

export const gradientAllowed = formula({
  id: 'ground.base.gradient-allowed',
  title: 'Gradient allowed',
  source: { basis: 'derived', text: 'critical gradient over the factor required' },
  gives: ['i_d', '1'],
  from: { i_c: ['1', 'critical gradient'], gamma: ['1', 'required factor on the gradient'] },
  as: 'i_c / gamma',
  valid: ['gamma >= 1'],
})
