import { formula } from '../working/formula.ts'

export const terzaghiHeave = formula({
  id: 'ground.heave.terzaghi',
  title: 'Base heave of a wide cut, Terzaghi form',
  source: { basis: 'memory', text: 'Terzaghi 1943; replace 0.7 B by the depth to stiff ground where that is less' },
  gives: ['FS', '1'],
  from: {
    c_u: ['Pa', 'undrained strength'],
    gamma: ['N/m3', 'unit weight above the base'],
    H: ['m', 'depth of the cut'],
    B: ['m', 'width of the cut'],
  },
  as: '5.7 * c_u / (gamma * H - c_u * H / (0.7 * B))',
  valid: ['H < B', 'gamma * 0.7 * B > c_u'],
})

export const bjerrumEide = formula({
  id: 'ground.heave.bjerrum-eide',
  title: 'Base heave, Bjerrum and Eide form: strength below the base only',
  source: { basis: 'memory', text: 'Bjerrum & Eide 1956, Géotechnique 6(1): N_c c_u/(γH + q); toe embedment ignored' },
  gives: ['FS', '1'],
  from: {
    N_c: ['1', 'bearing capacity factor for depth over width'],
    c_u: ['Pa', 'undrained strength, mean over 0.7 B below the base'],
    sigma_v: ['Pa', 'total vertical stress outside at base level'],
    q: ['Pa', 'surcharge at the surface'],
  },
  as: 'N_c * c_u / (sigma_v + q)',
})

export const sideShearHeave = formula({
  id: 'ground.heave.side-shear',
  title: 'Base heave with shear on the side of the sinking block',
  source: {
    basis: 'read',
    text: 'Caltrans Trenching and Shoring Manual ch. 10, example 10-2, as an open geotechnical library quotes it',
  },
  gives: ['FS', '1'],
  from: {
    N_c: ['1', 'bearing capacity factor for depth over width'],
    c_u: ['Pa', 'undrained strength'],
    gamma: ['N/m3', 'unit weight above the base'],
    H: ['m', 'depth of the cut'],
    q: ['Pa', 'surcharge'],
    B: ['m', 'width of the cut'],
  },
  where: {
    resisting: ['N/m', 'c_u * N_c * 0.7 * B', 'resistance below the block'],
    shear: ['N/m', 'c_u * H', 'shear on its side'],
    driving: ['N/m', '0.7 * B * (gamma * H + q) - shear', 'weight and surcharge less side shear'],
  },
  as: 'resisting / driving',
  valid: ['0.7 * B * (gamma * H + q) > c_u * H'],
})

/** Skempton's curve in straight pieces between the depths it is quoted at; constant beyond four. */
export const skemptonCircle = formula({
  id: 'ground.heave.nc-circle',
  title: 'Bearing capacity factor of a round or square base in clay at depth',
  source: {
    basis: 'memory',
    text: 'Skempton 1951: 6.2, 6.7, 7.1, 7.4, 7.7, 8.1, 8.4, 8.6, 8.8, 9.0 at H/B 0, ¼, ½, ¾, 1, 1½, 2, 2½, 3, 4',
  },
  gives: ['N_c', '1'],
  from: { x: ['1', 'depth over width'] },
  as: 'if(x < 0.25, 6.2 + 2 * x, if(x < 0.5, 6.7 + 1.6 * (x - 0.25), if(x < 1, 7.1 + 1.2 * (x - 0.5), if(x < 1.5, 7.7 + 0.8 * (x - 1), if(x < 2, 8.1 + 0.6 * (x - 1.5), if(x < 3, 8.4 + 0.4 * (x - 2), if(x < 4, 8.8 + 0.2 * (x - 3), 9)))))))',
  valid: ['x >= 0'],
})

export const skemptonStrip = formula({
  id: 'ground.heave.nc-strip',
  title: 'Bearing capacity factor of a long base in clay at depth',
  source: {
    basis: 'memory',
    text: 'Skempton 1951: 5.14, 5.6, 5.9, 6.2, 6.4, 6.8, 7.0, 7.2, 7.4, 7.5 at H/B 0, ¼, ½, ¾, 1, 1½, 2, 2½, 3, 4',
  },
  gives: ['N_c', '1'],
  from: { x: ['1', 'depth over width'] },
  as: 'if(x < 0.25, 5.14 + 1.84 * x, if(x < 0.75, 5.6 + 1.2 * (x - 0.25), if(x < 1.5, if(x < 1, 6.2 + 0.8 * (x - 0.75), 6.4 + 0.8 * (x - 1)), if(x < 3, if(x < 2, 6.8 + 0.4 * (x - 1.5), 7 + 0.4 * (x - 2)), if(x < 4, 7.4 + 0.1 * (x - 3), 7.5)))))',
  valid: ['x >= 0'],
})

export const rectangleFactor = formula({
  id: 'ground.heave.nc-rectangle',
  title: 'Bearing capacity factor of a rectangular base in clay',
  source: {
    basis: 'read',
    text: 'Skempton rule N_c,square (0.84 + 0.16 B/L), confirmed by Caltrans example 10-2 as quoted',
  },
  gives: ['N_c', '1'],
  from: { N_square: ['1', 'factor of a square base'], B: ['m', 'width'], L: ['m', 'length'] },
  as: 'N_square * (0.84 + 0.16 * B / L)',
  valid: ['B <= L'],
})

export const stabilityNumber = formula({
  id: 'ground.heave.stability-number',
  title: 'Stability number of a cut in clay',
  source: {
    basis: 'memory',
    text: 'Peck 1969: (γH + q)/c_u; below about 4 little movement, above 6 to 7 failure becomes possible',
  },
  gives: ['N', '1'],
  from: {
    sigma_v: ['Pa', 'total vertical stress at base level'],
    q: ['Pa', 'surcharge'],
    c_u: ['Pa', 'undrained strength'],
  },
  as: '(sigma_v + q) / c_u',
})

export const depthOverWidth = formula({
  id: 'ground.heave.depth-over-width',
  title: 'Depth of the cut over its width',
  source: { basis: 'derived', text: 'ratio' },
  gives: ['x', '1'],
  from: { top: ['m', 'ground level'], base: ['m', 'level of the base'], B: ['m', 'width'] },
  as: '(top - base) / B',
})

export const strengthAt = formula({
  id: 'ground.heave.strength-at',
  title: 'Undrained strength at a level',
  source: { basis: 'derived', text: 'linear with depth below the top of the layer' },
  gives: ['c', 'Pa'],
  from: {
    c_u: ['Pa', 'undrained strength at the top of the layer'],
    g: ['N/m3', 'rise with depth'],
    top: ['m', 'top of the layer'],
    z: ['m', 'level'],
  },
  as: 'c_u + g * (top - z)',
  valid: ['z <= top'],
})

export const ringArea = formula({
  id: 'ground.heave.ring-area',
  title: 'Area of the ring of ground, 0.7 B wide, that would sink as the base heaves',
  source: { basis: 'derived', text: 'plane geometry' },
  gives: ['A', 'm2'],
  from: { r_o: ['m', 'outer radius of the wall'], B: ['m', 'width of the cut'] },
  as: 'pi * ((r_o + 0.7 * B)^2 - r_o^2)',
})

export const meanUnitWeight = formula({
  id: 'ground.heave.mean-unit-weight',
  title: 'Mean unit weight down to the base',
  source: { basis: 'derived', text: 'total stress over depth' },
  gives: ['gamma', 'N/m3'],
  from: { sigma_v: ['Pa', 'total vertical stress at the base'], H: ['m', 'depth of the cut'] },
  as: 'sigma_v / H',
  valid: ['H > 0'],
})
