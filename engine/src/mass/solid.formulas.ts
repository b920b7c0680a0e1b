import { formula, type Source } from '../working/formula.ts'

const handbook: Source = {
  basis: 'memory',
  text: 'closed forms of general engineering handbooks; each agrees with a closed mesh of the same shape in the tests',
}
const integrated = (text: string): Source => ({ basis: 'derived', text })

// Ring sector about x. Its own frame: u along the middle ray, v across it, x along the axis.

export const ringSweep = formula({
  id: 'mass.ring-sector.sweep',
  title: 'Angle a ring sector spans',
  source: integrated('from the first angle to the second about +x; a second angle below the first lies beyond 360 deg'),
  gives: ['theta', 'rad'],
  from: { from: ['rad', 'first angle'], to: ['rad', 'second angle'] },
  as: 'to - from + if(to < from, 2 * pi, 0)',
  valid: ['to < from or to > from', 'to - from <= 6.2831853071796', 'to - from > -6.2831853071796'],
})

export const ringVolume = formula({
  id: 'mass.ring-sector.volume',
  title: 'Volume of a ring sector',
  source: handbook,
  gives: ['V', 'm3'],
  from: {
    Ro: ['m', 'outer radius'],
    Ri: ['m', 'inner radius'],
    x1: ['m', 'one end along the axis'],
    x2: ['m', 'other end along the axis'],
    theta: ['rad', 'angle it spans'],
  },
  as: 'theta / 2 * (Ro^2 - Ri^2) * abs(x2 - x1)',
  valid: ['Ri < Ro'],
})

export const ringCentroid = formula({
  id: 'mass.ring-sector.centroid',
  title: 'Distance of the centroid of a ring sector from the axis',
  source: handbook,
  gives: ['c', 'm'],
  from: { Ro: ['m', 'outer radius'], Ri: ['m', 'inner radius'], theta: ['rad', 'angle it spans'] },
  as: '4 * sin(theta / 2) * (Ro^2 + Ro * Ri + Ri^2) / (3 * theta * (Ro + Ri))',
  valid: ['theta > 0', 'Ri < Ro'],
})

export const ringSpreadAlongRay = formula({
  id: 'mass.ring-sector.spread-along-ray',
  title: 'Mean square distance from the centroid along the middle ray',
  source: integrated('∫u² over the sector in polar coordinates, less the square of the centroid'),
  gives: ['k2', 'm2'],
  from: {
    Ro: ['m', 'outer radius'],
    Ri: ['m', 'inner radius'],
    theta: ['rad', 'angle it spans'],
    c: ['m', 'centroid'],
  },
  as: '(Ro^2 + Ri^2) / 4 * (1 + sin(theta) / theta) - c^2',
  valid: ['theta > 0'],
})

export const ringSpreadAcrossRay = formula({
  id: 'mass.ring-sector.spread-across-ray',
  title: 'Mean square distance from the middle ray',
  source: integrated('∫v² over the sector in polar coordinates'),
  gives: ['k2', 'm2'],
  from: { Ro: ['m', 'outer radius'], Ri: ['m', 'inner radius'], theta: ['rad', 'angle it spans'] },
  as: '(Ro^2 + Ri^2) / 4 * (1 - sin(theta) / theta)',
  valid: ['theta > 0'],
})

export const straightSpread = formula({
  id: 'mass.straight.spread',
  title: 'Mean square distance from the middle of a straight extent',
  source: handbook,
  gives: ['k2', 'm2'],
  from: { L: ['m', 'length'] },
  as: 'L^2 / 12',
})

// Frustum of a cone; a cylinder is one with equal radii.

export const axisLength = formula({
  id: 'mass.axis.length',
  title: 'Distance between the centres of the ends',
  source: integrated('Pythagoras'),
  gives: ['h', 'm'],
  from: {
    x1: ['m', 'x of one centre'],
    y1: ['m', 'y of one centre'],
    z1: ['m', 'z of one centre'],
    x2: ['m', 'x of the other'],
    y2: ['m', 'y of the other'],
    z2: ['m', 'z of the other'],
  },
  as: 'sqrt((x2 - x1)^2 + (y2 - y1)^2 + (z2 - z1)^2)',
})

export const cylinderVolume = formula({
  id: 'mass.cylinder.volume',
  title: 'Volume of a cylinder',
  source: handbook,
  gives: ['V', 'm3'],
  from: { R: ['m', 'radius'], h: ['m', 'length'] },
  as: 'pi * R^2 * h',
})

export const frustumVolume = formula({
  id: 'mass.frustum.volume',
  title: 'Volume of a frustum of a cone',
  source: handbook,
  gives: ['V', 'm3'],
  from: { R1: ['m', 'radius at the first end'], R2: ['m', 'radius at the second end'], h: ['m', 'length'] },
  as: 'pi * h / 3 * (R1^2 + R1 * R2 + R2^2)',
})

export const frustumCentroid = formula({
  id: 'mass.frustum.centroid',
  title: 'Distance of the centroid of a frustum from its first end',
  source: handbook,
  gives: ['c', 'm'],
  from: { R1: ['m', 'radius at the first end'], R2: ['m', 'radius at the second end'], h: ['m', 'length'] },
  as: 'h / 4 * (R1^2 + 2 * R1 * R2 + 3 * R2^2) / (R1^2 + R1 * R2 + R2^2)',
  valid: ['R1 + R2 > 0'],
})

export const frustumSpreadAlong = formula({
  id: 'mass.frustum.spread-along',
  title: 'Mean square distance from the centroid along the axis of a frustum',
  source: integrated('∫x²πr² along the axis over the volume, less the square of the centroid'),
  gives: ['k2', 'm2'],
  from: {
    R1: ['m', 'radius at the first end'],
    R2: ['m', 'radius at the second end'],
    h: ['m', 'length'],
    c: ['m', 'centroid from the first end'],
  },
  as: 'h^2 / 10 * (R1^2 + 3 * R1 * R2 + 6 * R2^2) / (R1^2 + R1 * R2 + R2^2) - c^2',
  valid: ['R1 + R2 > 0'],
})

export const frustumSpreadAcross = formula({
  id: 'mass.frustum.spread-across',
  title: 'Mean square distance from a plane through the axis of a frustum',
  source: integrated('∫πr⁴/4 along the axis over the volume'),
  gives: ['k2', 'm2'],
  from: { R1: ['m', 'radius at the first end'], R2: ['m', 'radius at the second end'] },
  as: '3 / 20 * (R1^4 + R1^3 * R2 + R1^2 * R2^2 + R1 * R2^3 + R2^4) / (R1^2 + R1 * R2 + R2^2)',
  valid: ['R1 + R2 > 0'],
})

export const sphereVolume = formula({
  id: 'mass.sphere.volume',
  title: 'Volume of a sphere',
  source: handbook,
  gives: ['V', 'm3'],
  from: { R: ['m', 'radius'] },
  as: '4 / 3 * pi * R^3',
})

export const sphereSpread = formula({
  id: 'mass.sphere.spread',
  title: 'Mean square distance from a plane through the centre of a sphere',
  source: handbook,
  gives: ['k2', 'm2'],
  from: { R: ['m', 'radius'] },
  as: 'R^2 / 5',
})

// Revolution: the profile edge by edge, each the frustum between it and the axis; an edge that runs back takes away.

export const revolutionEdge = formula({
  id: 'mass.revolution.edge',
  title: 'Volume between an edge of the profile and the axis',
  source: integrated('signed frustum; summed round the profile what lies between it and the axis falls out'),
  gives: ['V', 'm3'],
  from: {
    x1: ['m', 'first corner, along the axis'],
    r1: ['m', 'first corner, from the axis'],
    x2: ['m', 'next corner, along the axis'],
    r2: ['m', 'next corner, from the axis'],
  },
  as: 'pi / 3 * (x2 - x1) * (r1^2 + r1 * r2 + r2^2)',
})

// Extrusion: the outline edge by edge, each the triangle with the origin.

export const extrusionEdge = formula({
  id: 'mass.extrusion.edge',
  title: 'Volume over the triangle of an edge and the origin',
  source: integrated(
    'half the cross product of its corners, times the depth; summed round the outline it is the whole',
  ),
  gives: ['V', 'm3'],
  from: {
    a1: ['m', 'first corner'],
    b1: ['m', 'first corner, other coordinate'],
    a2: ['m', 'next corner'],
    b2: ['m', 'next corner, other coordinate'],
    L: ['m', 'depth'],
  },
  as: '(a1 * b2 - a2 * b1) / 2 * L',
})

// Spherical cap: radius a of the flat face, height h, radius R of the sphere; distances along the axis from the flat face.

export const capSphere = formula({
  id: 'mass.cap.sphere',
  title: 'Radius of the sphere of a cap',
  source: handbook,
  gives: ['R', 'm'],
  from: { a: ['m', 'radius of the flat face'], h: ['m', 'height'] },
  as: '(a^2 + h^2) / (2 * h)',
  valid: ['h > 0'],
})

export const capVolume = formula({
  id: 'mass.cap.volume',
  title: 'Volume of a spherical cap',
  source: handbook,
  gives: ['V', 'm3'],
  from: { a: ['m', 'radius of the flat face'], h: ['m', 'height'] },
  as: 'pi * h / 6 * (3 * a^2 + h^2)',
})

export const capCentroid = formula({
  id: 'mass.cap.centroid',
  title: 'Distance of the centroid of a spherical cap from the centre of its sphere',
  source: handbook,
  gives: ['c', 'm'],
  from: { R: ['m', 'radius of the sphere'], h: ['m', 'height'] },
  as: '3 * (2 * R - h)^2 / (4 * (3 * R - h))',
  valid: ['h > 0', 'h <= 2 * R'],
})

export const capSpreadAlong = formula({
  id: 'mass.cap.spread-along',
  title: 'Mean square distance from the centroid along the axis of a spherical cap',
  source: integrated('∫(R² − u²)u² from R − h to R over the volume, less the square of the centroid'),
  gives: ['k2', 'm2'],
  from: { R: ['m', 'radius of the sphere'], h: ['m', 'height'], c: ['m', 'centroid from the centre of the sphere'] },
  as: '(R^2 * (R^3 - (R - h)^3) / 3 - (R^5 - (R - h)^5) / 5) / (h^2 * (3 * R - h) / 3) - c^2',
  valid: ['h > 0', 'h <= 2 * R'],
})

export const capSpreadAcross = formula({
  id: 'mass.cap.spread-across',
  title: 'Mean square distance from a plane through the axis of a spherical cap',
  source: integrated('∫(R² − u²)²/4 from R − h to R over the volume'),
  gives: ['k2', 'm2'],
  from: { R: ['m', 'radius of the sphere'], h: ['m', 'height'] },
  as: '(R^4 * h - 2 * R^2 * (R^3 - (R - h)^3) / 3 + (R^5 - (R - h)^5) / 5) / 4 / (h^2 * (3 * R - h) / 3)',
  valid: ['h > 0', 'h <= 2 * R'],
})

export const boxVolume = formula({
  id: 'mass.box.volume',
  title: 'Volume of a box',
  source: handbook,
  gives: ['V', 'm3'],
  from: { a: ['m', 'one side'], b: ['m', 'second side'], c: ['m', 'third side'] },
  as: 'a * b * c',
})

export const spanLength = formula({
  id: 'mass.span.length',
  title: 'Length of a span',
  source: integrated('difference of its ends'),
  gives: ['L', 'm'],
  from: { x1: ['m', 'one end'], x2: ['m', 'other end'] },
  as: 'abs(x2 - x1)',
})

// Mass of solids.

export const solidMass = formula({
  id: 'mass.solid.mass',
  title: 'Mass of a solid',
  source: integrated('density × volume × solid fraction'),
  gives: ['m', 'kg'],
  from: { rho: ['kg/m3', 'density'], V: ['m3', 'volume'], f: ['1', 'solid fraction'] },
  as: 'rho * V * f',
})

export const cutMass = formula({
  id: 'mass.solid.cut',
  title: 'Mass taken away by a cut',
  source: integrated('a cut counts negative: − density × volume × solid fraction'),
  gives: ['m', 'kg'],
  from: { rho: ['kg/m3', 'density'], V: ['m3', 'volume'], f: ['1', 'solid fraction of what is cut'] },
  as: '-rho * V * f',
})
