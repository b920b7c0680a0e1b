import { formula } from '../working/formula.ts'

const STATICS = { basis: 'derived', text: 'two flanges and their webs as plates; fillets left out' } as const

const H: ['m', string] = ['m', 'depth']
const B: ['m', string] = ['m', 'width of a flange']
const TF: ['m', string] = ['m', 'flange']
const TW: ['m', string] = ['m', 'one web']
const N: ['1', string] = ['1', 'webs: 1 of an I-section, 2 of a box']

/** Area of an I-section or a box. */
export const sectionArea = formula({
  id: 'lift.section.area',
  title: 'Area of a section of plates',
  source: STATICS,
  gives: ['A', 'm2'],
  from: { h: H, b: B, t_f: TF, t_w: TW, n: N },
  as: '2 * b * t_f + n * t_w * (h - 2 * t_f)',
  valid: ['h > 2 * t_f', 'b > n * t_w'],
})

/** Area of its webs. */
export const sectionWebs = formula({
  id: 'lift.section.webs',
  title: 'Area of the webs of a section',
  source: STATICS,
  gives: ['A_w', 'm2'],
  from: { h: H, t_f: TF, t_w: TW, n: N },
  as: 'n * t_w * (h - 2 * t_f)',
  valid: ['h > 2 * t_f'],
})

/** Second moment of area about the strong axis. */
export const sectionStrong = formula({
  id: 'lift.section.strong',
  title: 'Second moment of area about the strong axis',
  source: STATICS,
  gives: ['I_y', 'm4'],
  from: { h: H, b: B, t_f: TF, t_w: TW, n: N },
  as: '(b * h^3 - (b - n * t_w) * (h - 2 * t_f)^3) / 12',
  valid: ['h > 2 * t_f', 'b > n * t_w'],
})

/** Second moment of area about the weak axis; the webs of a box stand at its edges. */
export const sectionWeak = formula({
  id: 'lift.section.weak',
  title: 'Second moment of area about the weak axis',
  source: STATICS,
  gives: ['I_z', 'm4'],
  from: { h: H, b: B, t_f: TF, t_w: TW, n: N },
  where: { h_w: ['m', 'h - 2 * t_f', 'height of a web'] },
  as: 'if(n > 1, (h * b^3 - h_w * (b - 2 * t_w)^3) / 12, (2 * t_f * b^3 + h_w * t_w^3) / 12)',
  valid: ['h > 2 * t_f', 'b > n * t_w'],
})

/** Elastic section modulus about the strong axis. */
export const sectionElastic = formula({
  id: 'lift.section.elastic',
  title: 'Elastic section modulus',
  source: { basis: 'derived', text: 'second moment over half of the depth' },
  gives: ['W', 'm3'],
  from: { I_y: ['m4', 'second moment of area about the strong axis'], h: H },
  as: '2 * I_y / h',
})

/** Plastic section modulus about the strong axis. */
export const sectionPlastic = formula({
  id: 'lift.section.plastic',
  title: 'Plastic section modulus',
  source: STATICS,
  gives: ['W', 'm3'],
  from: { h: H, b: B, t_f: TF, t_w: TW, n: N },
  as: 'b * t_f * (h - t_f) + n * t_w * (h - 2 * t_f)^2 / 4',
  valid: ['h > 2 * t_f'],
})

/** Torsion constant: open by St Venant, closed by Bredt. */
export const sectionTorsion = formula({
  id: 'lift.section.torsion',
  title: 'Torsion constant',
  source: {
    basis: 'derived',
    text: 'open: Σ s t³/3; closed: 4 A_m²/Σ(s/t) on the middle lines of the plates (Bredt)',
  },
  gives: ['I_t', 'm4'],
  from: { h: H, b: B, t_f: TF, t_w: TW, n: N },
  where: {
    h_m: ['m', 'h - t_f', 'between the middles of the flanges'],
    b_m: ['m', 'b - t_w', 'between the middles of the webs of a box'],
  },
  as: 'if(n > 1, 4 * (h_m * b_m)^2 / (2 * b_m / t_f + 2 * h_m / t_w), (2 * b * t_f^3 + (h - 2 * t_f) * t_w^3) / 3)',
  valid: ['h > 2 * t_f', 'b > n * t_w'],
})

/** Warping constant; none of a box, which is the cautious side. */
export const sectionWarping = formula({
  id: 'lift.section.warping',
  title: 'Warping constant',
  source: { basis: 'derived', text: 'I-section: I_z (h − t_f)²/4; box: none, which is the cautious side' },
  gives: ['I_w', 'm6'],
  from: { I_z: ['m4', 'second moment of area about the weak axis'], h: H, t_f: TF, n: N },
  as: 'if(n > 1, 0 * I_z * h^2, I_z * (h - t_f)^2 / 4)',
})

/** Height of a web between its flanges. */
export const webHeight = formula({
  id: 'lift.section.web-height',
  title: 'Height of a web',
  source: STATICS,
  gives: ['h_w', 'm'],
  from: { h: H, t_f: TF },
  as: 'h - 2 * t_f',
  valid: ['h > 2 * t_f'],
})

/** Slenderness of a web. */
export const webSlenderness = formula({
  id: 'lift.section.web-slenderness',
  title: 'Height of a web over its thickness',
  source: STATICS,
  gives: ['s_w', '1'],
  from: { h: H, t_f: TF, t_w: TW },
  as: '(h - 2 * t_f) / t_w',
  valid: ['h > 2 * t_f', 't_w > 0'],
})

/** Slenderness of a flange: half of what stands out of an I-section, all of what spans between the webs of a box. */
export const flangeSlenderness = formula({
  id: 'lift.section.flange-slenderness',
  title: 'Width of a flange that can buckle, over its thickness',
  source: STATICS,
  gives: ['s_f', '1'],
  from: { b: B, t_f: TF, t_w: TW, n: N },
  as: 'if(n > 1, (b - 2 * t_w) / t_f, (b - t_w) / (2 * t_f))',
  valid: ['b > n * t_w', 't_f > 0'],
})
