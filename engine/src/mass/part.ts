import type { Material, Part } from '../model/index.ts'
import type { Body } from '../numeric/body.ts'
import { add, addMatrix, type Mat3, scale, scaleMatrix, subtract, type Vec3, ZERO } from '../numeric/vector.ts'
import { type Answer, found, knownOr, sumOf } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Meshes } from './meshSolid.ts'
import { standardUncertainty } from './set.formulas.ts'
import { cutMass, solidMass } from './solid.formulas.ts'
import { type SolidShape, solidShape } from './solid.ts'

export type MassBasis = NonNullable<Part['mass']>['basis']

/** A part's solids together. Frame: machine, entry's own place; another instance is turned and shifted from here. */
export interface PartShape {
  solids: readonly SolidShape[]
  /** Solids that add; cuts do not shrink bounds, outlines or supports. */
  bodies: readonly Body[]
  /** Σ ± volume × solid fraction, m³. */
  amount: number
  centroid: Vec3
  /** Mean of (p − centroid)(p − centroid)ᵀ over what is solid, m². */
  spread: Mat3
}

/** One instance of a part. */
export interface PartMass {
  entry: string
  shape: PartShape
  /** Stated where the file states it, else computed. */
  mass: Answer<'kg'>
  /** Σ ± density × volume × solid fraction. */
  computed: Answer<'kg'>
  basis: MassBasis
  /** Standard uncertainty as a share, and in mass. */
  share: Answer<'1'>
  uncertainty: Answer<'kg'>
  centroid: readonly [Answer<'m'>, Answer<'m'>, Answer<'m'>]
}

/** Shape of a part from its solids alone: a new mass or name leaves it as it is. */
export function partShape(solids: Part['solids'], meshes: Meshes): PartShape {
  const shapes = solids.map((solid) => solidShape(solid, meshes))
  const amounts = shapes.map((s) => signedAmount(s))
  const amount = amounts.reduce((sum, a) => sum + a, 0)
  const share = shares(amounts, amount)
  const centroid = weighted(share, (i) => (shapes[i] as SolidShape).centroid)
  const spread = share.reduce<Mat3>(
    (sum, w, i) => {
      const { centroid: own, spread: about } = shapes[i] as SolidShape
      return addMatrix(sum, scaleMatrix(addMatrix(about, outer(subtract(own, centroid))), w))
    },
    scaleMatrix(outer(ZERO), 0),
  )
  return { solids: shapes, bodies: shapes.filter((s) => s.op === 'add').map((s) => s.body), amount, centroid, spread }
}

/** ± volume × solid fraction; an unknown volume stands in as nothing, and what rests on it is open. */
const signedAmount = ({ op, volume, fill }: SolidShape): number =>
  (op === 'cut' ? -1 : 1) * (volume.value ?? 0) * (fill.value as number)

/** Weights that sum to one; equal ones where nothing solid is left, so that the place stays known. */
function shares(amounts: readonly number[], amount: number): number[] {
  return amounts.map((a) => (amount > 0 ? a / amount : 1 / amounts.length))
}

function weighted(weights: readonly number[], at: (index: number) => Vec3): Vec3 {
  return weights.reduce<Vec3>((sum, w, i) => add(sum, scale(at(i), w)), ZERO)
}

/** v vᵀ. */
export const outer = (v: Vec3): Mat3 => [scale(v, v[0]), scale(v, v[1]), scale(v, v[2])]

/** Mass, uncertainty and centroid of one instance of a part, each with what it rests on. */
export function partMass(entry: string, stated: Part['mass'], material: Material, shape: PartShape): PartMass {
  const computed = sumOf(
    'density × volume × solid fraction over the solids',
    'kg',
    shape.solids.map((s, i) => ({
      label: `solid ${i + 1}`,
      answer: (s.op === 'cut' ? cutMass : solidMass).show({ rho: material.density, V: s.volume, f: s.fill }),
    })),
  )
  const mass = stated?.value ?? computed
  const share = knownOr(stated?.uncertainty, '1', pointerOf('parts', entry, 'mass', 'uncertainty'))
  return {
    entry,
    shape,
    mass,
    computed,
    basis: stated?.basis ?? 'calculated',
    share,
    uncertainty: standardUncertainty.show({ m: mass, s: share }),
    centroid: centroidAnswers(shape),
  }
}

function centroidAnswers({ solids, centroid, amount }: PartShape): PartMass['centroid'] {
  const leaves = solids.flatMap((s) => s.leaves).map((leaf) => [leaf.pointer, leaf] as const)
  const volumes = solids.map((s, i) => [`volume of solid ${i + 1}`, s.volume] as const)
  const inputs: Record<string, Answer> = Object.fromEntries([...volumes, ...leaves])
  const along = (axis: 0 | 1 | 2): Answer<'m'> =>
    found({
      unit: 'm',
      value: centroid[axis],
      method: `centroid along machine ${'xyz'[axis]}: Σ ±V f c / Σ ±V f over the solids`,
      inputs,
      residuals: [firstMoment(solids, axis, centroid[axis], amount)],
    })
  return [along(0), along(1), along(2)]
}

function firstMoment(solids: readonly SolidShape[], axis: 0 | 1 | 2, at: number, amount: number) {
  const arms = solids.map((s) => s.centroid[axis] - at)
  const value = solids.reduce((sum, s, i) => sum + signedAmount(s) * (arms[i] as number), 0)
  const size = Math.max(1, Math.abs(at), ...arms.map(Math.abs))
  return { title: 'Σ ±V f (c − centroid)', value, unit: 'm4' as const, tolerance: 1e-9 * Math.max(amount, 1e-9) * size }
}
