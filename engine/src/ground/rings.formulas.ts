import { formula } from '../working/formula.ts'

export const jointForce = formula({
  id: 'ground.rings.joint-force',
  title: 'Force that opens a joint between rings once no thrust closes it',
  source: {
    basis: 'derived',
    text: 'gasket along its line, and water on the end of the ring outside it; the force of a gasket by its maker’s curve',
  },
  gives: ['F', 'N'],
  from: {
    D: ['m', 'outer diameter of the rings'],
    a: ['m', 'from the outside to the line of the gasket'],
    q: ['N/m', 'force of the gasket per metre at its working gap'],
    u: ['Pa', 'pressure of the water at the middle of the rings'],
  },
  as: 'pi * (D - 2 * a) * q + pi * (D - a) * a * u',
  valid: ['a >= 0', 'a < D / 2'],
})

export const tiesTogether = formula({
  id: 'ground.rings.ties',
  title: 'What alike ties hold together',
  source: { basis: 'derived', text: 'number by working load, evenly round the ring' },
  gives: ['R', 'N'],
  from: { n: ['1', 'number'], P: ['N', 'working load of one'] },
  as: 'n * P',
})

export const jointOpening = formula({
  id: 'ground.rings.opening',
  title: 'Opening of a joint that ties hold',
  source: {
    basis: 'derived',
    text: 'ties snug while the thrust still closes the joint; elastic stretch of all of them',
  },
  gives: ['w', 'm'],
  from: {
    F: ['N', 'force that opens the joint'],
    s: ['m', 'from anchorage to anchorage over the joint'],
    n: ['1', 'number of ties'],
    EA: ['N', 'stiffness of one tie'],
  },
  as: 'F * s / (n * EA)',
  valid: ['n >= 1', 'EA > 0'],
})

export const footArea = formula({
  id: 'ground.restart.feet',
  title: 'Area of all feet of a frame',
  source: { basis: 'derived', text: 'number by width by height' },
  gives: ['A', 'm2'],
  from: { n: ['1', 'number of feet'], b: ['m', 'width'], h: ['m', 'height'] },
  as: 'n * b * h',
})
