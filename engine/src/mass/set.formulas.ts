import { formula, type Source } from '../working/formula.ts'

const derived = (text: string): Source => ({ basis: 'derived', text })

export const likeParts = formula({
  id: 'mass.like-parts',
  title: 'Mass of like parts',
  source: derived('count × mass of one'),
  gives: ['M', 'kg'],
  from: { n: ['1', 'how many of them are in the set'], m: ['kg', 'mass of one'] },
  as: 'n * m',
})

export const standardUncertainty = formula({
  id: 'mass.uncertainty.standard',
  title: 'Standard uncertainty of a mass',
  source: derived('share × mass; like parts made from one figure share its error, so theirs adds straight'),
  gives: ['u', 'kg'],
  from: { m: ['kg', 'mass'], s: ['1', 'standard uncertainty as a share'] },
  as: 's * abs(m)',
})

export const allowanceOn = formula({
  id: 'mass.allowance.basis',
  title: 'Allowance on a mass by its basis',
  source: derived('share that the project sets for the basis × mass; a mass taken away may fall short by as much'),
  gives: ['A', 'kg'],
  from: { a: ['1', 'allowance for this basis'], m: ['kg', 'mass'] },
  as: 'a * abs(m)',
})

export const expectedMass = formula({
  id: 'mass.expected',
  title: 'Mass expected to hang',
  source: derived('net + retained, without allowance: what a load reading is held against'),
  gives: ['M', 'kg'],
  from: { net: ['kg', 'net mass'], ret: ['kg', 'retained matter'] },
  as: 'net + ret',
})

export const designMass = formula({
  id: 'mass.design.upper',
  title: 'Upper design mass',
  source: derived('what is expected to hang, with its allowance; it enters here, on the load side, and nowhere else'),
  gives: ['D', 'kg'],
  from: { M: ['kg', 'mass expected to hang'], A: ['kg', 'allowance'] },
  as: 'M + A',
})

export const lowerMass = formula({
  id: 'mass.design.lower',
  title: 'Lower design mass',
  source: derived('net mass less its standard uncertainty, nothing retained'),
  gives: ['M', 'kg'],
  from: { net: ['kg', 'net mass'], u: ['kg', 'standard uncertainty'] },
  as: 'net - u',
})

export const placedX = formula({
  id: 'mass.pose.x',
  title: 'Site x of a point of the machine',
  source: derived('R = Rz(yaw to the left) · Ry(−nose up) · Rx(roll), p_site = origin + R p_machine; first row'),
  gives: ['X', 'm'],
  from: {
    X0: ['m', 'site x of the machine frame'],
    x: ['m', 'machine x'],
    y: ['m', 'machine y'],
    z: ['m', 'machine z'],
    roll: ['rad', 'roll about machine x'],
    pitch: ['rad', 'nose up'],
    yaw: ['rad', 'yaw to the left'],
  },
  where: {
    y1: ['m', 'y * cos(roll) - z * sin(roll)', 'across, after the roll'],
    z1: ['m', 'y * sin(roll) + z * cos(roll)', 'up, after the roll'],
    x2: ['m', 'x * cos(pitch) - z1 * sin(pitch)', 'along, after the pitch'],
  },
  as: 'X0 + x2 * cos(yaw) - y1 * sin(yaw)',
})

export const placedY = formula({
  id: 'mass.pose.y',
  title: 'Site y of a point of the machine',
  source: derived('R = Rz(yaw to the left) · Ry(−nose up) · Rx(roll), p_site = origin + R p_machine; second row'),
  gives: ['Y', 'm'],
  from: {
    Y0: ['m', 'site y of the machine frame'],
    x: ['m', 'machine x'],
    y: ['m', 'machine y'],
    z: ['m', 'machine z'],
    roll: ['rad', 'roll about machine x'],
    pitch: ['rad', 'nose up'],
    yaw: ['rad', 'yaw to the left'],
  },
  where: {
    y1: ['m', 'y * cos(roll) - z * sin(roll)', 'across, after the roll'],
    z1: ['m', 'y * sin(roll) + z * cos(roll)', 'up, after the roll'],
    x2: ['m', 'x * cos(pitch) - z1 * sin(pitch)', 'along, after the pitch'],
  },
  as: 'Y0 + x2 * sin(yaw) + y1 * cos(yaw)',
})

export const placedZ = formula({
  id: 'mass.pose.z',
  title: 'Site z of a point of the machine',
  source: derived('R = Rz(yaw to the left) · Ry(−nose up) · Rx(roll), p_site = origin + R p_machine; third row'),
  gives: ['Z', 'm'],
  from: {
    Z0: ['m', 'site z of the machine frame'],
    x: ['m', 'machine x'],
    y: ['m', 'machine y'],
    z: ['m', 'machine z'],
    roll: ['rad', 'roll about machine x'],
    pitch: ['rad', 'nose up'],
  },
  where: { z1: ['m', 'y * sin(roll) + z * cos(roll)', 'up, after the roll'] },
  as: 'Z0 + x * sin(pitch) + z1 * cos(pitch)',
})
