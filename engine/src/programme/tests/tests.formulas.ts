import { formula } from '../../working/formula.ts'

/** How far oil is from the code asked for: of the three scale numbers the one that is most above its limit. */
export const codeExcess = formula({
  id: 'programme.test.code-excess',
  title: 'Scale number most above its limit',
  source: {
    basis: 'memory',
    text: 'ISO 4406: a scale number for each of three particle sizes; at a limit "or better" none may be above its own',
  },
  gives: ['e', '1'],
  from: {
    a: ['1', 'scale number read, 4 µm(c) and above'],
    b: ['1', 'scale number read, 6 µm(c) and above'],
    c: ['1', 'scale number read, 14 µm(c) and above'],
    A: ['1', 'limit, 4 µm(c) and above'],
    B: ['1', 'limit, 6 µm(c) and above'],
    C: ['1', 'limit, 14 µm(c) and above'],
  },
  as: 'max(a - A, max(b - B, c - C))',
})
