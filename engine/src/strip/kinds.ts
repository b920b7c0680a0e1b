import type { CheckKind } from '../working/check.ts'
import type { Source } from '../working/formula.ts'

const derived = (text: string): Source => ({ basis: 'derived', text })
const kind = (id: string, title: string, source: Source, practice: readonly number[], decidedBy = 'machine engineer') =>
  ({ id, title, stage: 'strip', source, practice, decidedBy }) as const satisfies CheckKind

export const overlapKind = kind(
  'strip.part.overlap',
  'Overlap of a part with others, as found',
  derived('intersection of the solids as they stand in the file; what the file accepts is left out'),
  [5],
)

export const surfaceKind = kind(
  'strip.part.surface',
  'The surface of a mesh encloses a solid',
  derived('every edge once in each direction; a volume and a thickness above zero'),
  [5],
)

export const joinedKind = kind(
  'strip.machine.joined',
  'Every part has a path of joints to the rest',
  derived('connectivity of the graph of joints'),
  [5, 6],
)

export const touchKind = kind(
  'strip.joint.touch',
  'Gap between the parts that a joint holds',
  derived('least distance of the two parts’ solids, as found'),
  [6],
)

export const pathKind = kind(
  'strip.step.path',
  'The piece moves without striking what still stands',
  derived('swept translation or turn against parts, obstructions, bore and slab'),
  [11],
)

export const fastenersKind = kind(
  'strip.step.fasteners',
  'No fastener is left between the piece and what stays',
  derived('joints that cross the cut and are not opened'),
  [12],
)

export const servicesKind = kind(
  'strip.step.services',
  'No service holds the piece to what stays',
  derived('ends on the two sides of the cut: parted under isolation, or long enough to follow'),
  [13],
)

export const reachKind = kind(
  'strip.step.reach',
  'Fasteners are within reach of the tool',
  derived('what hides them is gone; those outside the shield stand in the open shaft'),
  [14],
)

export const toolKind = kind(
  'strip.step.tool',
  'The tool fits over every fastener that is opened',
  derived(
    'a cylinder over each head, by the length and the swing of the tool, against all that stands there at that step',
  ),
  [14],
)

export const loadPathKind = kind(
  'strip.step.load-path',
  'The load has a path while the joints of the piece are half released',
  { basis: 'common practice', text: 'bolts left hold what the hook and the jacks do not; common practice, no source' },
  [16],
  'licensed structural engineer',
)

export const dischargedKind = kind(
  'strip.isolation.discharged',
  'Stored energy is discharged before each break, and every act of the isolation is signed in its order',
  { basis: 'memory', text: '29 CFR 1910.147(d), the sequence of isolation' },
  [18, 73],
  'safety lead',
)

export const drainedKind = kind(
  'strip.step.drained',
  'What is drained at a step is caught',
  derived('sum of the drained volumes; a tenth over it is common practice, no source'),
  [74],
  'superintendent',
)

export const heldKind = kind(
  'strip.step.held',
  'What remains is held, by joints or from below',
  derived(
    'connectivity of the closed joints to parts that rest on the cradle; what they do not tie, by equilibrium on contacts that only press, with friction where it may be counted on',
  ),
  [15],
  'licensed structural engineer',
)

export const steadyKind = kind(
  'strip.step.steady',
  'What contact alone holds bears a push sideways',
  derived('least share of the weight sideways, in eight directions, at which contacts that only press no longer hold'),
  [15],
  'licensed structural engineer',
)

export const standsKind = kind(
  'strip.step.stands',
  'The centre of gravity of what remains lies inside its support',
  derived('plan distance of the centre of gravity from the edges of the bed of the cradle'),
  [15],
  'licensed structural engineer',
)

export const returnKind = kind(
  'strip.step.return',
  'The way back is free with the changed shapes',
  derived('the same sweep reversed, with what the changes add to the piece and to what stands'),
  [17],
)

export const preloadKind = kind(
  'strip.bolts.preload',
  'Bolts reach their preload over the scatter of the method',
  {
    basis: 'memory',
    text: 'VDI 2230 Part 1: at least what the joint needs, at most 0.9 of yield while tightening; scatter by method from two handbook tables as reproduced',
  },
  [77],
)

export const flangeKind = kind(
  'strip.flange.holds',
  'A flange neither opens nor slips under thrust, torque and tilting moment',
  derived('F/n + M y/Σy² against the least preload; friction of the clamped faces against torque and shear'),
  [78],
)

export const facesKind = kind(
  'strip.joint.faces',
  'Joint faces are flat, and the gap before bolting is small enough',
  { basis: 'common practice', text: "the maker's limits against what is measured" },
  [79],
  'machine maker',
)

/** Kinds of check that this stage makes. */
export const foundAgainKind = kind(
  'strip.step.services-found',
  'Every service is found again: tag off, tag on and port agree, and a second person looked',
  derived('equality of three tags for each service parted at the step; who joined and who looked are two'),
  [75],
  'superintendent',
)

export const hosesKind = kind(
  'strip.step.hoses',
  'Hoses that go back are within age, rating and bend radius',
  {
    basis: 'memory',
    text: 'ISO 4413, ISO/TR 17165-2; the longest use and the least bend radius are the project’s and the maker’s own',
  },
  [76],
)

export const stripKinds: readonly CheckKind[] = [
  overlapKind,
  surfaceKind,
  joinedKind,
  touchKind,
  pathKind,
  fastenersKind,
  servicesKind,
  reachKind,
  toolKind,
  loadPathKind,
  dischargedKind,
  drainedKind,
  heldKind,
  steadyKind,
  standsKind,
  returnKind,
  preloadKind,
  flangeKind,
  facesKind,
  foundAgainKind,
  hosesKind,
]
