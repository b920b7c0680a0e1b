import { type Instance, idsMeant, type Model, type Piece } from '../model/index.ts'
import { knownOr, sumOf } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { changed, inForce } from './change.ts'
import { changeChecks } from './changeChecks.ts'
import { groupChecks } from './groupChecks.ts'
import { lumpOf, type Member } from './lump.ts'
import { type PartMass, type PartShape, partMass, partShape } from './part.ts'
import { partChecks } from './partChecks.ts'
import { type PieceMass, pieceMass, weighingsOf } from './piece.ts'
import { pieceChecks } from './pieceChecks.ts'
import { type PieceSet, pieceSets, within } from './pieceSet.ts'
import { poseChecks } from './poseChecks.ts'
import { type Rules, type SetMass, setOf } from './set.ts'

/** As found in the machine; as the load cells say; as it goes back with the approved changes in. */
export type MassState = 'found' | 'weighed' | 'returned'

export interface MassResult {
  checks: readonly Check[]
  /** One instance of each entry. */
  parts: Readonly<Record<string, PartMass>>
  /** Each piece in each state that is known; `weighed` only with a record. */
  pieces: Readonly<Record<string, PieceMass>>
  /** Any set of instances, as found or as returned. */
  ofSet: (parts: readonly string[], state: Exclude<MassState, 'weighed'>) => SetMass
  /** The machine as a whole, as found. */
  machine: SetMass
}

/** Masses of parts, pieces, the machine and any set, with the checks of practice on how they are known. */
export function mass(model: Model, memory: Memory): MassResult {
  const parts = partsOf(model, memory)
  const sets = pieceSets(model)
  const pieces = piecesOf(model, sets, parts, memory)
  const ofSet = setsOf(model, sets, parts, memory)
  const machine = ofSet([...model.instances.byId.keys()], 'found')
  const checks = [
    ...partChecks(model, parts, memory),
    ...groupChecks(model, parts, memory),
    ...poseChecks(model, memory),
    ...changeChecks(model, parts, memory),
    ...pieceChecks(model, sets, pieces, memory),
  ]
  return { checks, parts, pieces, ofSet, machine }
}

function partsOf({ project, meshes }: Model, memory: Memory): MassResult['parts'] {
  const entries = Object.entries(project.parts)
  const masses = entries.map(([id, part]) => {
    const named = part.solids.map((s) => (s.shape === 'mesh' ? meshes.get(s.file) : undefined))
    const shape = memory.once(`mass-shape/${id}`, [part.solids, ...named], () => partShape(part.solids, meshes))
    return partOf(id, part, project.materials, shape, memory)
  })
  return memory.once('mass-parts', masses, () =>
    Object.fromEntries(entries.map(([id], i) => [id, masses[i] as PartMass])),
  )
}

function partOf(
  id: string,
  part: Model['project']['parts'][string],
  materials: Model['project']['materials'],
  shape: PartShape,
  memory: Memory,
): PartMass {
  const material = materials[part.material] as Model['project']['materials'][string]
  return memory.once(`mass-part/${id}`, [shape, part.mass, material], () => partMass(id, part.mass, material, shape))
}

/** Instances of a set gathered by entry, in the order of the machine. */
function membersOf(ids: readonly string[], { instances }: Model, parts: MassResult['parts']): Member[] {
  const byEntry = new Map<string, Instance[]>()
  for (const id of ids) {
    const instance = instances.byId.get(id)
    if (instance === undefined) throw new Error(`no part "${id}" in this model`)
    const own = byEntry.get(instance.entry)
    if (own === undefined) byEntry.set(instance.entry, [instance])
    else own.push(instance)
  }
  return [...byEntry].map(([entry, own]) => ({ part: parts[entry] as PartMass, instances: own }))
}

const rulesOf = ({ project }: Model): Rules => ({
  pose: project.machine?.pose,
  combine: project.settings.uncertainty,
  allowance: project.settings.allowance,
})

/** What a set hangs from, by identity: a new mass of a part outside it leaves it alone. */
function readBy(members: readonly Member[], { pose, combine, allowance }: Rules): unknown[] {
  return [pose, combine, allowance, ...members.flatMap((m) => [m.part, m.instances[0]?.part.pattern])]
}

/** What the changes that reach a set hang from. */
function changesBy(ids: readonly string[], members: readonly Member[], { project, instances }: Model): unknown[] {
  const here = new Set(ids)
  const acting = Object.values(project.changes).filter(
    (c) => inForce(c) && c.parts.some((p) => idsMeant(instances, p).some((i) => here.has(i))),
  )
  return [...acting, 'fates', ...members.map((m) => m.instances[0]?.part.fate)]
}

function piecesOf(
  model: Model,
  sets: readonly PieceSet[],
  parts: MassResult['parts'],
  memory: Memory,
): MassResult['pieces'] {
  const { project, instances } = model
  const rules = rulesOf(model)
  const masses = sets.map(({ id, piece, ids }) => {
    const members = membersOf(ids, model, parts)
    const weighings = weighingsOf(id, project.weighings, project.lifts)
    const { retained, retainedBack } = piece
    const inputs = [...readBy(members, rules), ...changesBy(ids, members, model), weighings.out, weighings.back]
    return memory.once(`mass-piece/${id}/${ids.join()}`, [...inputs, retained, retainedBack], () =>
      pieceMass({
        id,
        retained,
        retainedBack,
        members,
        changed: changed(members, project.changes, instances),
        weighings,
        rules,
        memory,
      }),
    )
  })
  return memory.once('mass-pieces', masses, () =>
    Object.fromEntries(sets.map(({ id }, i) => [id, masses[i] as PieceMass])),
  )
}

function setsOf(
  model: Model,
  pieces: readonly PieceSet[],
  parts: MassResult['parts'],
  memory: Memory,
): MassResult['ofSet'] {
  const rules = rulesOf(model)
  return (ids, state) => {
    const members = membersOf(ids, model, parts)
    const retained = retainedIn(new Set(ids), pieces, state)
    const inputs = [...readBy(members, rules), ...(state === 'found' ? [] : changesBy(ids, members, model))]
    const pointers = retained.map((r) => r.pointer).join()
    return memory.once(`mass-set/${state}/${ids.join()}`, [...inputs, pointers, ...retained.map((r) => r.input)], () =>
      setOf({
        members,
        lumps: state === 'found' ? members.map(lumpOf) : changed(members, model.project.changes, model.instances).lumps,
        retained: sumOf(
          'retained in the pieces of the set',
          'kg',
          retained.map(({ pointer, input }) => ({ label: pointer, answer: knownOr(input, 'kg', pointer) })),
        ),
        rules,
        memory,
      }),
    )
  }
}

interface Retained {
  pointer: string
  input: Piece['retained']
}

/** What is stated to be retained in the pieces that lie wholly in a set; of pieces within one another the outermost. */
function retainedIn(ids: ReadonlySet<string>, pieces: readonly PieceSet[], state: 'found' | 'returned'): Retained[] {
  const inside = pieces.filter(({ parts }) => within(parts, ids))
  const outermost = inside.filter((a) => !inside.some((b) => b.parts.size > a.parts.size && within(a.parts, b.parts)))
  return outermost.map(({ id, piece }) => {
    const back = state === 'returned' ? piece.retainedBack : undefined
    return { pointer: back?.pointer ?? pointerOf('pieces', id, 'retained'), input: back ?? piece.retained }
  })
}
