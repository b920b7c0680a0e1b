import * as base from '../../engine/src/ground/base.formulas.ts'
import * as bearing from '../../engine/src/ground/bearing.formulas.ts'
import { openChances } from '../../engine/src/ground/chance.ts'
import * as cradle from '../../engine/src/ground/cradle.formulas.ts'
import * as earth from '../../engine/src/ground/earth.formulas.ts'
import * as overlap from '../../engine/src/ground/overlap.formulas.ts'
import * as pad from '../../engine/src/ground/pad.formulas.ts'
import * as ring from '../../engine/src/ground/ring.formulas.ts'
import * as settlement from '../../engine/src/ground/settlement.formulas.ts'
import * as surcharge from '../../engine/src/ground/surcharge.formulas.ts'
import { numberOf, numberOr, numbersOf, textOf } from '../inputs.ts'
import type { Inputs, VerifiedFunction } from '../types.ts'

/** What cases of this stage call by name, beside the formulas: formulas of one question worked one after another. */
export const functions: Record<string, VerifiedFunction> = {
  /** Chance that one joint of secant piles opens, and that any of n does. */
  'ground.joints-open': (inputs) => {
    const [overlap, sigma, n] = take(inputs, 'overlap', 'sigma', 'n')
    const { one, any } = openChances(overlap, Math.SQRT2 * sigma, n)
    return { one, any }
  },
  /** The three coefficients of earth pressure. */
  'ground.coefficients': (inputs) => {
    const phi = numberOf(inputs, 'phi')
    return { K0: earth.atRest.value({ phi }), Ka: earth.active.value({ phi }), Kp: earth.passive.value({ phi }) }
  },
  /** Total pressure at a depth in one soil with a water level and a surcharge, at rest and active. */
  'ground.wall-pressure': wallPressure,
  /** Clay, undrained: pressure, depth of tension, height that stands. */
  'ground.undrained-wall': (inputs) => {
    const [gamma, z, q, c_u] = take(inputs, 'gamma', 'z', 'q', 'c_u')
    return {
      p: earth.clayActive.value({ gamma, z, q, c_u }),
      z_0: earth.tensionDepth.value({ gamma, c_u }),
      H_cr: earth.criticalHeight.value({ gamma, c_u }),
    }
  },
  /** Thick ring: stress at both faces, mean stress, and the stress summed over the wall. */
  'ground.thick-ring': thickRing,
  /** Thin ring with a deviation or an uneven pressure: edge stresses and eccentricity. */
  'ground.ring-edges': (inputs) => {
    const [N, M, t] = take(inputs, 'N', 'M', 't')
    return {
      sigma_max: ring.edgeStress.value({ N, M, t }),
      sigma_min: ring.edgeStress.value({ N, M: -M, t }),
      e_over_t: M / N / t,
    }
  },
  /** Neighbouring piles of a ring at a depth: deviation, distance, overlap, common thickness. */
  'ground.piles-apart': (inputs) => {
    const [D, s, h, z, v] = take(inputs, 'D', 's', 'h', 'z', 'v')
    const d = overlap.deviation.value({ h, z, v })
    const apart = overlap.spacingApart.value({ s, d })
    const aside = overlap.radialCentres.value({ s, d })
    return {
      deviation: d,
      spacing: apart,
      overlap: overlap.overlap.value({ D, s: apart }),
      thickness: overlap.lens.value({ D, s: apart }),
      centres_aside: aside,
      lens_aside: overlap.lens.value({ D, s: aside }),
      band_aside: overlap.radialBand.value({ D, d }),
    }
  },
  /** A plug of one soil over confined water: stress, pressure, factor, and use with partial factors. */
  'ground.plug': (inputs) => {
    const [gamma, t, gamma_w, h] = take(inputs, 'gamma', 't', 'gamma_w', 'h')
    const sigma = earth.layerWeight.value({ gamma, top: t, z: 0 })
    const u = base.uplift.value({ gamma_w, head: h, bottom: 0 })
    const design = (name: string, p: number) => base.factored.value({ gamma: numberOr(inputs, name, 1), p })
    return {
      sigma_v: sigma,
      u,
      FS: base.upliftFactor.value({ sigma, u }),
      V_dst_d: design('gamma_dst', u),
      G_stb_d: design('gamma_stb', sigma),
      use: design('gamma_dst', u) / design('gamma_stb', sigma),
    }
  },
  /** Gradient along a path against the critical one. */
  'ground.piping': (inputs) => {
    const [G_s, e, h, L] = take(inputs, 'G_s', 'e', 'h', 'L')
    const i_c = base.criticalGradient.value({ G_s, e })
    const i = base.gradient.value({ h, L })
    return { i_c, i, FS: i_c / i }
  },
  /** A tremie plug as a round plate. */
  'ground.plug-plate': (inputs) => {
    const [gamma_w, h, gamma_c, t, a, nu] = take(inputs, 'gamma_w', 'h', 'gamma_c', 't', 'a', 'nu')
    const p = base.netPressure.value({ gamma_w, h, gamma_c, t })
    return { p, M_centre: base.plugMomentCentre.value({ p, a, nu }), M_edge: base.plugMomentEdge.value({ p, a }) }
  },
  /** A pad loaded off its centre along one side. */
  'ground.eccentric-pad': (inputs) => {
    const [P, B, L, e] = take(inputs, 'P', 'B', 'L', 'e')
    return {
      q_max: pad.edgePressure.value({ P, B, L, e }),
      q_min: pad.farEdgePressure.value({ P, B, L, e }),
      contact: pad.contactLength.value({ B, e }),
      B_eff: pad.effectiveWidth.value({ B, e }),
      q_eff: pad.effectivePressure.value({ P, B, L, e_B: e, e_L: 0 }),
    }
  },
  /** A pad loaded off its centre both ways, by its effective area. */
  'ground.effective-pad': (inputs) => {
    const [P, B, L, e_B, e_L] = take(inputs, 'P', 'B', 'L', 'e_B', 'e_L')
    const [b, l] = [pad.effectiveWidth.value({ B, e: e_B }), pad.effectiveWidth.value({ B: L, e: e_L })]
    return { B_eff: b, L_eff: l, A_eff: b * l, q: pad.effectivePressure.value({ P, B, L, e_B, e_L }) }
  },
  /** A crane mat: area needed, length, pressure, bending and shear. */
  'ground.mat': (inputs) => {
    const [P, W, q_a, B, C, d] = take(inputs, 'P', 'W', 'q_a', 'B', 'C', 'd')
    const A = pad.matArea.value({ P, W, q_a })
    const L = A / B
    const bend = { P, L, B, C, d }
    return {
      A,
      L,
      ...pad.matBending.between(bend),
      f_b: pad.matBending.value(bend),
      V: pad.matShear.between(bend).V,
      f_v: pad.matShear.value(bend),
    }
  },
  /** Bearing capacity factors of one author. */
  'ground.bearing-factors': bearingFactors,
  /** Ultimate pressure of a square base as a straight line in its width, Vesić with no depth counted. */
  'ground.bearing-line': (inputs) => {
    const [phi, gamma, D, C_w] = take(inputs, 'phi', 'gamma', 'D', 'C_w')
    const at = (B: number) => bearing.generalBearing.value({ phi, c: 0, q: gamma * D, gamma, C_w, B, L: B, k: 0 })
    return {
      intercept: at(1) - (at(2) - at(1)),
      slope: at(2) - at(1),
      allowable: at(numberOr(inputs, 'B', 1)) / numberOr(inputs, 'FS', 1),
    }
  },
  /** Shape and depth factors and ultimate pressure of Vesić. */
  'ground.bearing-vesic': (inputs) => {
    const [phi, c, gamma, B, L, D] = take(inputs, 'phi', 'c', 'gamma', 'B', 'L', 'D')
    const all = { phi, c, q: gamma * D, gamma, C_w: 1, B, L, k: bearing.depthTerm.value({ D, B }) }
    return { ...bearing.generalBearing.between(all), q_ult: bearing.generalBearing.value(all) }
  },
  /** Vertical stress factors below the corner of a rectangle, for one m and many n. */
  'ground.newmark': (inputs) => {
    const m = numberOf(inputs, 'm')
    return { I: numbersOf(inputs, 'n').map((n) => surcharge.cornerVertical.value({ q: 1, B: m, L: n, z: 1 })) }
  },
  /** Stresses below the corner of a rectangle. */
  'ground.corner': (inputs) => {
    const [q, L, B, z] = take(inputs, 'q', 'L', 'B', 'z')
    return {
      sigma_z: surcharge.cornerVertical.value({ q, B, L, z }),
      sigma_x: surcharge.cornerHorizontal.value({ q, L, B, z }),
      sigma_y: surcharge.cornerHorizontal.value({ q, L: B, B: L, z }),
    }
  },
  /** Vertical stress on the axis of a square but outside it, by superposition of corners. */
  'ground.beside-square': (inputs) => {
    const [q, B, z, x] = take(inputs, 'q', 'B', 'z', 'x')
    const corner = (L: number) => surcharge.cornerVertical.value({ q, B: B / 2, L, z })
    return {
      large: 2 * corner(x + B / 2),
      small: 2 * corner(x - B / 2),
      sigma_z: 2 * (corner(x + B / 2) - corner(x - B / 2)),
    }
  },
  /** Pressure of a pad on a rigid wall, on its centre line: four corners with their signs, doubled. */
  'ground.pad-on-wall': (inputs) => {
    const [q, x_1, x_2, y, z] = take(inputs, 'q', 'x_1', 'x_2', 'y', 'z')
    const corner = (L: number) => surcharge.cornerHorizontal.value({ q, L, B: y, z })
    return { sigma_h: 2 * 2 * (corner(x_2) - corner(x_1)) }
  },
  /** Chart pressure of a line or point load summed down the wall. */
  'ground.chart-resultant': chartResultant,
  /** A strip load seen from below: vertical, horizontal and shear stress. */
  'ground.strip': (inputs) => {
    const [q, x_1, b, z] = take(inputs, 'q', 'x_1', 'b', 'z')
    return {
      sigma_z: surcharge.stripVertical.value({ q, x_1, b, z }),
      sigma_x: surcharge.stripOnWall.value({ k: 1, q, x_1, b, z }),
      tau: surcharge.stripShear.value({ q, x_1, b, z }),
    }
  },
  /** Granular settlement layer by layer, pressure spread two to one under a square. */
  'ground.hough': houghTotal,
  /** Spread under a square as a share of its pressure, at several depths. */
  'ground.spread-share': (inputs) => {
    const B = numberOf(inputs, 'B')
    return { share: numbersOf(inputs, 'z').map((z) => surcharge.spread.value({ P: B * B, B, L: B, z })) }
  },
  /** Settlement under a flexible rectangle on a half-space: corner, and middle from four quarters. */
  'ground.rectangle-settlement': (inputs) => {
    const [q, B, L, E, nu] = take(inputs, 'q', 'B', 'L', 'E', 'nu')
    const corner = settlement.rectangleCorner.value({ q, B, L, E, nu })
    const quarter = settlement.rectangleCorner.value({ q, B: B / 2, L: L / 2, E, nu })
    return { I: settlement.rectangleCorner.between({ q, B, L, E, nu }).I, corner, middle: 4 * quarter }
  },
  /** Two strips of a cradle with friction: reaction and outward push. */
  'ground.cradle-strips': (inputs) => {
    const [w, beta, mu] = take(inputs, 'w', 'beta', 'mu')
    const N = cradle.stripNormal.value({ w, beta, mu })
    return { N, H: cradle.stripPush.value({ N, beta, mu }) }
  },
  /** Load along a cradle and its contact. */
  'ground.cradle-along': (inputs) => {
    const [W, L, e] = take(inputs, 'W', 'L', 'e')
    return {
      w_max: cradle.lineLoad.value({ W, L, e }),
      contact: pad.contactLength.value({ B: L, e }),
      tipping: cradle.tippingFactor.value({ L, e }),
    }
  },
}

const take = <const N extends readonly string[]>(inputs: Inputs, ...names: N) =>
  names.map((name) => numberOf(inputs, name)) as { [K in keyof N]: number }

function wallPressure(inputs: Inputs) {
  const [depth, water, above, below, gamma_w, q, phi] = take(
    inputs,
    'depth',
    'water',
    'gamma_above',
    'gamma_sat',
    'gamma_w',
    'q',
    'phi',
  )
  const layer = (gamma: number, top: number, z: number) => earth.layerWeight.value({ gamma, top: -top, z: -z })
  const sigma_v = q + layer(above, 0, water) + layer(below, water, depth)
  const u = earth.porePressure.value({ gamma_w, head: -water, z: -depth })
  const pressure = (K: number) => earth.lateralPressure.value({ K, sigma_v, u, c: 0 })
  return {
    sigma_v,
    u,
    effective: sigma_v - u,
    at_rest: pressure(earth.atRest.value({ phi })),
    active: pressure(earth.active.value({ phi })),
  }
}

const SLICES = 2000

function thickRing(inputs: Inputs) {
  const [p_o, r_i, r_o] = take(inputs, 'p_o', 'r_i', 'r_o')
  const at = (r: number) => ring.lame.value({ p_o, p_i: numberOr(inputs, 'p_i', 0), r_i, r_o, r })
  const t = r_o - r_i
  const integral = Array.from({ length: SLICES }, (_, k) => at(r_i + ((k + 0.5) * t) / SLICES)).reduce(
    (s, v) => s + v,
    0,
  )
  const N = ring.thrust.value({ p: p_o, r_o })
  return {
    inner: at(r_i),
    outer: at(r_o),
    integral: (integral * t) / SLICES,
    thrust: N,
    mean: ring.hoopStress.value({ N, t }),
  }
}

const WEIGHT_FACTOR = {
  Vesic: bearing.weightFactorVesic,
  Hansen: bearing.weightFactorHansen,
  Meyerhof: bearing.weightFactorMeyerhof,
  'Annex D': bearing.weightFactorAnnexD,
} as const

function bearingFactors(inputs: Inputs) {
  const phi = numberOf(inputs, 'phi')
  const method = textOf(inputs, 'method')
  if (method === 'Terzaghi') {
    return { Nq: bearing.factorQTerzaghi.value({ phi }), Nc: bearing.factorCTerzaghi.value({ phi }) }
  }
  const weight = WEIGHT_FACTOR[method as keyof typeof WEIGHT_FACTOR]
  if (weight === undefined) throw new Error(`no bearing capacity factors of "${method}"`)
  return { Nq: bearing.factorQ.value({ phi }), Nc: bearing.factorC.value({ phi }), Ngamma: weight.value({ phi }) }
}

function chartResultant(inputs: Inputs) {
  const [Q, H, x] = take(inputs, 'Q', 'H', 'x')
  const line = textOf(inputs, 'load') === 'line'
  const at = (z: number) =>
    line ? surcharge.lineChart.value({ Q, H, x, z }) : surcharge.pointChart.value({ Q, H, x, z, y: 0 })
  const sum = Array.from({ length: SLICES }, (_, k) => at(((k + 0.5) * H) / SLICES)).reduce((s, v) => s + v, 0)
  return { resultant: (sum * H) / SLICES, coefficient: ((sum * H) / SLICES) * (H / Q) }
}

function houghTotal(inputs: Inputs) {
  const [B, q] = take(inputs, 'B', 'q')
  const [H, C, s0, z] = [
    numbersOf(inputs, 'H'),
    numbersOf(inputs, 'C'),
    numbersOf(inputs, 'sigma_0'),
    numbersOf(inputs, 'z'),
  ]
  const layers = H.map((h, i) => {
    const dsigma = surcharge.spread.value({ P: q * B * B, B, L: B, z: z[i] as number })
    return settlement.hough.value({ H: h, C: C[i] as number, sigma_0: s0[i] as number, dsigma })
  })
  return { settlement: layers.reduce((sum, w) => sum + w, 0) }
}
