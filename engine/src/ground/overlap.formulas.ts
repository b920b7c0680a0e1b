import { formula } from '../working/formula.ts'

export const spacing = formula({
  id: 'ground.overlap.spacing',
  title: 'Distance of neighbouring pile centres at the top',
  source: { basis: 'derived', text: 'chord of a regular polygon' },
  gives: ['s', 'm'],
  from: { D_r: ['m', 'diameter of the circle of centres'], n: ['1', 'piles'] },
  as: 'D_r * sin(pi / n)',
  valid: ['n >= 3'],
})

export const deviation = formula({
  id: 'ground.overlap.deviation',
  title: 'Deviation of one pile or panel at depth',
  source: { basis: 'derived', text: 'setting-out and verticality added; EN 12063:1999 8.6 lets tolerances add' },
  gives: ['d', 'm'],
  from: { h: ['m', 'setting-out tolerance'], z: ['m', 'depth below the top'], v: ['1', 'deviation per depth'] },
  as: 'h + z * v',
  valid: ['z >= 0'],
})

export const spacingApart = formula({
  id: 'ground.overlap.spacing-apart',
  title: 'Distance of two neighbours that lean apart by the full tolerance',
  source: { basis: 'derived', text: 'plane geometry, both in the plane of the wall' },
  gives: ['s_z', 'm'],
  from: { s: ['m', 'distance at the top'], d: ['m', 'deviation of one pile'] },
  as: 's + 2 * d',
})

export const overlap = formula({
  id: 'ground.overlap.overlap',
  title: 'Overlap of two neighbours; below zero is a window in the wall',
  source: { basis: 'derived', text: 'two equal circles' },
  gives: ['o', 'm'],
  from: { D: ['m', 'pile diameter'], s: ['m', 'distance of centres'] },
  as: 'D - s',
})

export const lens = formula({
  id: 'ground.overlap.thickness',
  title: 'Thickness common to two overlapping piles',
  source: { basis: 'derived', text: 'chord of the lens of two equal circles; nothing once they part' },
  gives: ['t', 'm'],
  from: { D: ['m', 'pile diameter'], s: ['m', 'distance of centres'] },
  as: 'sqrt(max(D^2 - s^2, 0))',
})

export const radialBand = formula({
  id: 'ground.overlap.radial-band',
  title: 'Band shared by two neighbours of which one leans in and one out',
  source: { basis: 'derived', text: 'plane geometry: diameter less both deviations' },
  gives: ['t', 'm'],
  from: { D: ['m', 'pile diameter'], d: ['m', 'deviation of one pile'] },
  as: 'max(D - 2 * d, 0)',
})

export const radialCentres = formula({
  id: 'ground.overlap.radial-centres',
  title: 'Distance of two neighbours of which one leans in and one out',
  source: { basis: 'derived', text: 'plane geometry' },
  gives: ['s_z', 'm'],
  from: { s: ['m', 'distance at the top'], d: ['m', 'deviation of one pile'] },
  as: 'sqrt(s^2 + 4 * d^2)',
})

export const panelRing = formula({
  id: 'ground.overlap.panel-ring',
  title: 'Ring that fits inside straight panels set round a circle',
  source: { basis: 'derived', text: 'circle through the inner corners of a regular polygon' },
  gives: ['t', 'm'],
  from: { a: ['m', 'inner radius to the middle of a panel'], b: ['m', 'panel thickness'], n: ['1', 'panels'] },
  as: 'a + b - a / cos(pi / n)',
  valid: ['n >= 3'],
})

export const lessDeviation = formula({
  id: 'ground.overlap.less-deviation',
  title: 'Thickness left at a joint whose neighbours lean opposite ways',
  source: { basis: 'derived', text: 'plane geometry' },
  gives: ['t_z', 'm'],
  from: { t: ['m', 'thickness at the top'], d: ['m', 'deviation of one panel'] },
  as: 'max(t - 2 * d, 0)',
})

export const lessStep = formula({
  id: 'ground.overlap.less-step',
  title: 'Thickness left at a joint of two panels that do not stand flush',
  source: { basis: 'derived', text: 'plane geometry' },
  gives: ['t_z', 'm'],
  from: { t: ['m', 'thickness of the ring'], s: ['m', 'step from one panel to the next, square to the wall'] },
  as: 'max(t - s, 0)',
})

export const thicknessNeeded = formula({
  id: 'ground.overlap.needed',
  title: 'Thickness that the hoop thrust needs',
  source: { basis: 'derived', text: 'factored thrust over design strength' },
  gives: ['t_need', 'm'],
  from: {
    gamma_F: ['1', 'partial factor on ring load'],
    N: ['N/m', 'hoop thrust'],
    f_cd: ['Pa', 'design strength'],
  },
  as: 'gamma_F * N / f_cd',
})

export const clearDiameter = formula({
  id: 'ground.bore.clear-diameter',
  title: 'Clear diameter that the tolerances guarantee at depth',
  source: { basis: 'derived', text: 'inner face of the piles less lining and deviation on both sides' },
  gives: ['D_clear', 'm'],
  from: {
    D_in: ['m', 'inner diameter of the wall as set out'],
    lining: ['m', 'lining thickness'],
    d: ['m', 'deviation at depth'],
  },
  as: 'D_in - 2 * lining - 2 * d',
})

export const innerFace = formula({
  id: 'ground.bore.inner-face',
  title: 'Inner diameter of a wall as set out',
  source: { basis: 'derived', text: 'circle of middles less one pile diameter, or thickness of panels' },
  gives: ['D_in', 'm'],
  from: { D_r: ['m', 'diameter of the circle of middles'], D: ['m', 'diameter of a pile, or thickness of a panel'] },
  as: 'D_r - D',
})

export const farCorner = formula({
  id: 'ground.bore.far-corner',
  title: 'Distance of the front corner of the machine from the shaft axis',
  source: { basis: 'derived', text: 'plane geometry: front, half width and sideways offset' },
  gives: ['r', 'm'],
  from: {
    x: ['m', 'front of the machine from the shaft centre'],
    y: ['m', 'half the width'],
    off: ['m', 'sideways offset of the machine'],
  },
  as: 'sqrt(x^2 + (y + abs(off))^2)',
})

export const roomLeft = formula({
  id: 'ground.bore.room',
  title: 'Room between a point and the bore',
  source: { basis: 'derived', text: 'radius less distance from the axis' },
  gives: ['gap', 'm'],
  from: { R: ['m', 'radius of the bore'], r: ['m', 'distance of the point from the axis'] },
  as: 'R - r',
})

export const sagitta = formula({
  id: 'ground.eye.sagitta',
  title: 'How much later the crown and invert meet a round wall than the sides',
  source: { basis: 'derived', text: 'R − √(R² − (D/2)²)' },
  gives: ['sagitta', 'm'],
  from: { R: ['m', 'outer radius of the wall'], D: ['m', 'diameter of the machine'] },
  as: 'R - sqrt(R^2 - (D / 2)^2)',
  valid: ['D < 2 * R'],
})

export const eyeHalfAngle = formula({
  id: 'ground.eye.half-angle',
  title: 'Half the arc over which an eye cuts the ring',
  source: { basis: 'derived', text: 'asin(D/2R)' },
  gives: ['theta', 'rad'],
  from: { R: ['m', 'radius of the ring'], D: ['m', 'diameter of the eye'] },
  as: 'asin(D / (2 * R))',
  valid: ['D < 2 * R'],
})

export const chordLength = formula({
  id: 'ground.eye.chord',
  title: 'Clear length in a round shaft at the full width of the machine',
  source: { basis: 'derived', text: '2 √(R² − (D/2)²)' },
  gives: ['L', 'm'],
  from: { R: ['m', 'radius of the shaft'], D: ['m', 'diameter of the machine'] },
  as: '2 * sqrt(R^2 - (D / 2)^2)',
  valid: ['D < 2 * R'],
})

export const blockNeeded = formula({
  id: 'ground.block.needed',
  title: 'Length of treated ground on the axis that covers the face at the sides',
  source: { basis: 'derived', text: 'sagitta of the wall and the cover asked for' },
  gives: ['L', 'm'],
  from: { s: ['m', 'sagitta of the outer face'], cover: ['m', 'cover at the sides'] },
  as: 's + cover',
})

export const blockThere = formula({
  id: 'ground.block.there',
  title: 'Length of treated ground outside the wall, on the axis',
  source: { basis: 'derived', text: 'far end less the outer face' },
  gives: ['L', 'm'],
  from: {
    x_1: ['m', 'one end of the treated ground, from the shaft centre'],
    x_2: ['m', 'other end'],
    r_o: ['m', 'outer radius of the wall'],
  },
  as: 'max(abs(x_1), abs(x_2)) - r_o',
})

export const eyeInvert = formula({
  id: 'ground.eye.invert',
  title: 'Level of the bottom of an eye',
  source: { basis: 'derived', text: 'centre less half the diameter' },
  gives: ['z_b', 'm'],
  from: { z: ['m', 'centre'], D: ['m', 'diameter'] },
  as: 'z - D / 2',
})

export const sealPressure = formula({
  id: 'ground.eye.seal-pressure',
  title: 'Pressure that the seal must hold',
  source: { basis: 'derived', text: "water pressure with the maker's factor" },
  gives: ['p', 'Pa'],
  from: { factor: ['1', 'factor that the maker asks for'], u: ['Pa', 'water pressure'] },
  as: 'factor * u',
})

export const fillVolume = formula({
  id: 'ground.fill.volume',
  title: 'Room to be filled in the shaft',
  source: { basis: 'derived', text: 'cylinder less what stands in it' },
  gives: ['V', 'm3'],
  from: {
    D: ['m', 'clear diameter'],
    top: ['m', 'top of the fill'],
    bottom: ['m', 'top of the slab'],
    displaced: ['m3', 'what stands in it'],
  },
  as: 'pi * D^2 / 4 * (top - bottom) - displaced',
  valid: ['top > bottom'],
})

export const fillGap = formula({
  id: 'ground.fill.gap',
  title: 'Volume pumped off the room computed',
  source: { basis: 'derived', text: 'difference, either way' },
  gives: ['dV', 'm3'],
  from: { pumped: ['m3', 'volume pumped'], V: ['m3', 'room computed'] },
  as: 'abs(pumped - V)',
})

export const fillBand = formula({
  id: 'ground.fill.band',
  title: 'Difference that still counts as full',
  source: { basis: 'common practice', text: 'common practice, no source: a band about the computed volume' },
  gives: ['dV', 'm3'],
  from: { band: ['1', 'band as a share'], V: ['m3', 'room computed'] },
  as: 'band * V',
})
