import { formula } from '../working/formula.ts'

export const lineLength = formula({
  id: 'lift.units.line-length',
  title: 'Line left between head and hook, where it is shortest and stiffest',
  source: { basis: 'derived', text: 'head − highest hook of this lift' },
  gives: ['L', 'm'],
  from: { z_head: ['m', 'head, site z'], z_hook: ['m', 'highest hook of this lift, site z'] },
  as: 'z_head - z_hook',
  valid: ['z_head > z_hook'],
})

export const lineStiffness = formula({
  id: 'lift.units.line-stiffness',
  title: 'Stiffness of the line of one unit',
  source: { basis: 'derived', text: 'EA / L' },
  gives: ['k', 'N/m'],
  from: { EA: ['N', 'axial stiffness of the line'], L: ['m', 'its length'] },
  as: 'EA / L',
  valid: ['L > 0'],
})

export const oneAhead = formula({
  id: 'lift.units.one-ahead',
  title: 'What one of four like lines of a square takes up when it is drawn in ahead of the others',
  source: { basis: 'derived', text: 'rigid level block: ± k δ / 4 on the two diagonals' },
  gives: ['dF', 'N'],
  from: { k: ['N/m', 'stiffness of one line'], d: ['m', 'how far it is ahead'] },
  as: 'k * d / 4',
})

export const aheadAllowed = formula({
  id: 'lift.units.ahead-allowed',
  title: 'How far one of four like lines may be ahead for a share of its even load',
  source: { basis: 'derived', text: 'δ = 4 ΔF / k; it shrinks with the length of line that is left' },
  gives: ['d', 'm'],
  from: { dF: ['N', 'what it may take up'], k: ['N/m', 'stiffness of one line'] },
  as: '4 * dF / k',
  valid: ['k > 0'],
})

export const strandLoad = formula({
  id: 'lift.units.strand',
  title: 'Load of one strand of a unit',
  source: { basis: 'derived', text: 'shared evenly by the strands that are fitted' },
  gives: ['F', 'N'],
  from: { P: ['N', 'load of the unit'], n: ['1', 'strands fitted'] },
  as: 'P / n',
  valid: ['n >= 1'],
})

export const strandsNeeded = formula({
  id: 'lift.units.strands-needed',
  title: 'Strands that a unit needs',
  source: {
    basis: 'derived',
    text: 'load over the working load of one, rounded up',
  },
  gives: ['n', '1'],
  from: { P: ['kg', 'load of the unit'], S: ['kg', 'working load of one strand'] },
  as: 'ceil(P / S)',
  valid: ['S > 0'],
})

export const strokesOf = formula({
  id: 'lift.units.strokes',
  title: 'Strokes for a height',
  source: { basis: 'derived', text: 'height over one stroke, rounded up; the last bits of a quotient begin no stroke' },
  gives: ['n', '1'],
  from: { h: ['m', 'height hoisted'], s: ['m', 'one stroke'] },
  as: 'ceil(h / s - 1e-9)',
  valid: ['s > 0'],
})

export const meanSpeed = formula({
  id: 'lift.units.mean-speed',
  title: 'Speed over many strokes, re-gripping included',
  source: { basis: 'derived', text: 'stroke over the time of stroke and re-grip' },
  gives: ['v', 'm/s'],
  from: {
    s: ['m', 'one stroke'],
    w: ['m/s', 'speed within a stroke'],
    t: ['s', 'from the end of one stroke to the start of the next'],
  },
  as: 's / (s / w + t)',
  valid: ['w > 0', 's > 0'],
})

export const leadLine = formula({
  id: 'lift.winch.lead-line',
  title: 'Pull of the lead line of a reeved winch while it hoists',
  source: {
    basis: 'derived',
    text: 'geometric series of the losses at N sheaves for N parts, lead line over the last fixed sheave to the drum',
  },
  gives: ['T', 'N'],
  from: {
    W: ['N', 'weight on the block'],
    N: ['1', 'parts of line'],
    K: ['1', 'pull after a sheave over pull before it'],
  },
  as: 'W * (K - 1) / (1 - K^(-N))',
  valid: ['K > 1', 'K < 1.5', 'N >= 1', 'N <= 40'],
})

export const drumPull = formula({
  id: 'lift.winch.drum-pull',
  title: 'Line pull left in a layer of the drum',
  source: { basis: 'derived', text: 'constant torque: inverse to the mean diameter of the layer, rope laid on rope' },
  gives: ['T', 'N'],
  from: {
    T_1: ['N', 'line pull in the first layer'],
    D: ['m', 'barrel'],
    d: ['m', 'rope'],
    j: ['1', 'layer, from the barrel'],
  },
  as: 'T_1 * (D + d) / (D + (2 * j - 1) * d)',
  valid: ['j >= 1'],
})
