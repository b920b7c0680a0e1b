import { deviation, type SurveyedElement, surveyedAt, wallRing } from '../../../ground/index.ts'
import type { Shaft } from '../../../model/index.ts'
import type { Check } from '../../../working/check.ts'
import { showNumber } from '../../../working/quantity.ts'
import { lengthText, levelText } from '../../sheet/figures.ts'
import type { SiteSubject } from '../subject.ts'
import { type FigureTable, number, words } from './figures.ts'

/** The wall as built, as its picture and its table show it. */
export interface AsBuiltWall {
  shaft: Shaft
  /** Level of the plan: the top of the slab, where the bore is guaranteed. */
  z: number
  /** Radii of the ring as designed, m. */
  outer: number
  middle: number
  elements: readonly SurveyedElement[]
  /** The same where the wall is deepest, for the joints. */
  atBase: readonly SurveyedElement[]
  /** How far one may stand off its place at that level; undefined where no tolerance is given. */
  tolerance: number | undefined
  bore: Check | undefined
  /** That a joint stands open at the toe, while tolerances stand. */
  chance: Check | undefined
  thickness: Check | undefined
  /** The ones that govern. */
  farthestIn: SurveyedElement | undefined
  thinnest: SurveyedElement | undefined
  /** Of panels: the one that has parted most from the next along the wall; undefined while all press together. */
  widest: SurveyedElement | undefined
}

export const ELEMENT: Readonly<Record<Shaft['wall']['kind'], string>> = {
  'secant piles': 'Pile',
  'slurry panels': 'Panel',
  sprayed: 'Place',
  segments: 'Segment',
}

/** The wall of the shaft as surveyed, or as its tolerances allow where it is not; undefined without a shaft. */
export function asBuiltWall({ stages }: SiteSubject): AsBuiltWall | undefined {
  const { shaft } = stages.model.project
  if (shaft === undefined) return undefined
  const ring = wallRing(shaft)
  const [outer, middle] = [ring.outerRadius.value, ring.meanRadius.value]
  const z = shaft.slabTop.value as number
  const inner = (shaft.clearDiameter.value as number) / 2
  const surveyed = middle === undefined ? [] : surveyedAt(shaft, z, middle)
  const atBase = middle === undefined ? [] : surveyedAt(shaft, shaft.excavation.value as number, middle)
  const of = (kind: string): Check | undefined => stages.ground.checks.find((c) => c.kind === kind)
  return {
    shaft,
    z,
    outer: outer ?? inner,
    middle: middle ?? inner,
    elements: surveyed,
    atBase,
    tolerance: toleranceAt(shaft, z),
    bore: of('ground.bore.clear'),
    chance: of('ground.overlap.chance'),
    thickness: of('ground.overlap.thickness'),
    farthestIn: leastBy(surveyed, (e) => e.outward),
    thinnest: leastBy(
      atBase.filter((e) => e.joint !== undefined),
      ({ joint }) => joint?.left ?? -(joint?.step ?? 0),
    ),
    widest: leastBy(
      atBase.filter((e) => (e.joint?.opening ?? 0) > 0),
      ({ joint }) => -(joint?.opening ?? 0),
    ),
  }
}

function toleranceAt({ wall, collar }: Shaft, z: number): number | undefined {
  const [h, v] = [wall.settingOut?.value, wall.verticality?.value]
  return h === undefined || v === undefined ? undefined : deviation.value({ h, z: (collar.value as number) - z, v })
}

function leastBy<T>(all: readonly T[], of: (t: T) => number): T | undefined {
  return all.reduce<T | undefined>((a, b) => (a === undefined || of(b) < of(a) ? b : a), undefined)
}

/** How many are surveyed, in words. */
export function surveyedWords({ shaft: { wall }, elements }: AsBuiltWall): string {
  const name = ELEMENT[wall.kind].toLowerCase()
  if (elements.length === 0) return 'not surveyed: the tolerances of setting out and verticality stand'
  return elements.length === wall.piles
    ? `all ${elements.length} ${name}s as surveyed`
    : `${elements.length} of ${wall.piles ?? 'an unknown number of'} ${name}s surveyed: the tolerances stand until all are`
}

/** Every pile or panel, those that govern first and then the farthest in: where it stands, how it leans, its joint with the next. */
export function asBuiltTable(subject: SiteSubject): FigureTable | undefined {
  const wall = asBuiltWall(subject)
  if (wall === undefined || wall.elements.length === 0) return undefined
  const { units } = subject
  const length = (v: number | undefined): string => (v === undefined ? '–' : signed(lengthIn(v, units), v))
  const { kind } = wall.shaft.wall
  const [piles, panels] = [kind === 'secant piles', kind === 'slurry panels']
  return {
    title: 'The wall as surveyed',
    aside: `${units === 'SI' ? 'mm' : 'in'}; place at ${levelText(wall.z, units)}, joints at the base`,
    columns: [
      words(ELEMENT[kind], 16),
      number('stands out (+) or in (−)', 22),
      number('leans 1 in', 16),
      words('joint with', 16),
      number('step', 14),
      ...(piles ? [number('thickness shared', 20)] : []),
      ...(panels ? [number('parted (+) along it', 20)] : []),
    ],
    rows: wall.elements
      .map((e, i) => ({ e, joint: wall.atBase[i]?.joint, strong: governs(wall, e) }))
      .sort((a, b) => Number(b.strong) - Number(a.strong) || a.e.outward - b.e.outward)
      .map(({ e, joint, strong }) => ({
        pointer: e.pointer,
        cells: [
          e.id,
          length(e.outward),
          e.lean === 0 ? 'plumb' : showNumber(1 / e.lean, 0),
          joint?.next ?? '–',
          joint === undefined ? '–' : lengthIn(joint.step, units),
          ...(piles ? [joint?.left === undefined ? '–' : lengthIn(joint.left, units)] : []),
          ...(panels ? [length(joint?.opening)] : []),
        ],
        strong,
      })),
  }
}

const governs = ({ farthestIn, thinnest, widest }: AsBuiltWall, { id }: SurveyedElement): boolean =>
  id === farthestIn?.id || id === thinnest?.id || id === widest?.id

/** Millimetres, or inches. */
export const lengthIn = (value: number, units: SiteSubject['units']): string =>
  units === 'SI' ? showNumber(value * 1000, 0) : showNumber(value / 0.0254, 1)

/** The same with its unit. */
export const shortLength = (value: number, units: SiteSubject['units']): string =>
  `${lengthIn(value, units)}\u00a0${units === 'SI' ? 'mm' : 'in'}`

const signed = (shown: string, value: number): string => (value > 0 && Number(shown) !== 0 ? `+${shown}` : shown)

/** What the picture does not say by itself. */
export function asBuiltNotes(subject: SiteSubject): string[] {
  const wall = asBuiltWall(subject)
  if (wall === undefined) return []
  const { units } = subject
  return [
    `To scale at ${levelText(wall.z, units)}, the top of the slab. Each pile or panel runs straight from one surveyed point to the next, and on below the last.`,
    ...(wall.elements.length === 0
      ? [
          'The ring is drawn as designed; the clear bore left is what remains with every tolerance used up. The survey (/shaft/wall/asBuilt) replaces that once it is whole.',
        ]
      : [
          'Below the plan the ring unrolled: how far each stands off its place, enlarged; dashed, the tolerance at that level.',
          ...(wall.shaft.wall.kind === 'slurry panels'
            ? [
                'Each panel as wide as set out, square to where its head stands: one that has turned about its own axis is not seen.',
              ]
            : []),
        ]),
    ...(wall.shaft.wall.lining?.value === undefined
      ? []
      : [`The lining of ${lengthText(wall.shaft.wall.lining.value, units)} is taken off the clear bore left.`]),
  ]
}
