import type { Stages } from '@shieldwright/engine'
import { type MassState, mass, type SetMass } from '@shieldwright/engine/mass/index.ts'
import { idsMeant, model } from '@shieldwright/engine/model/index.ts'
import { countVerdicts } from '@shieldwright/engine/working/check.ts'
import { freshMemory } from '@shieldwright/engine/working/memory.ts'
import { nearestId } from '@shieldwright/engine/working/problem.ts'
import { showQuantity, type UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { type Command, Option } from 'commander'
import { readProjectFile } from '../../project/readProject.ts'
import { type Answer, type Common, printAnswer, type Refusal, usageProblem } from '../answer.ts'
import { checksTable, workingJson } from '../checkView.ts'
import { idList, projectCommand } from '../command.ts'
import { table } from '../table.ts'

interface Options extends Common {
  of?: readonly string[]
  as: MassState
}

/** `mass FILE`: mass, centre of gravity, inertia and bounds of the machine or of any set of its parts and pieces. */
export const massCommand = (): Command =>
  projectCommand('mass', 'mass, centre of gravity, inertia and bounds of a set of parts')
    .option('--of <ids>', 'parts, entries or pieces, between commas; the whole machine otherwise', idList)
    .addOption(
      new Option('--as <state>', 'the state to weigh it in').choices(['found', 'weighed', 'returned']).default('found'),
    )
    .action(async (file: string, options: Options) => printAnswer(await massOfFile(file, options), options))

/** Masses hang from the model alone: nothing further is derived for them. */
type Masses = Pick<Stages, 'model' | 'mass'>

async function massOfFile(file: string, options: Options): Promise<Answer> {
  const project = await readProjectFile(file)
  if ('problems' in project) return project
  const memory = freshMemory()
  const read = model(project.document, memory, project.meshes)
  if (read.model === undefined) return { problems: read.problems }
  return massAnswer({ model: read.model, mass: mass(read.model, memory) }, options)
}

function massAnswer(stages: Masses, { of = [], as, units = 'SI' }: Options): Answer {
  const set = setOf(stages, of, as)
  if ('problems' in set) return set
  const about = subjectsOf(stages, of, set)
  const checks = of.length === 0 ? stages.mass.checks : stages.mass.checks.filter((c) => about.has(c.subject.id))
  const counts = countVerdicts(checks)
  return { json: massJson(set, units), text: () => `${massText(set, units)}\n${checksTable(checks, units)}`, counts }
}

/** Ids that a check of this set may be about: what was named, its instances, and their entries. */
function subjectsOf({ model: { instances } }: Masses, of: readonly string[], { parts }: SetMass): ReadonlySet<string> {
  return new Set([...of, ...parts, ...parts.map((id) => instances.byId.get(id)?.entry ?? id)])
}

function setOf(stages: Masses, of: readonly string[], as: MassState): SetMass | Refusal {
  if (as === 'weighed') return weighedPiece(stages, of)
  if (of.length === 0 && as === 'found') return stages.mass.machine
  const { instances, project } = stages.model
  const unknown = of.filter((id) => !Object.hasOwn(project.pieces, id) && idsMeant(instances, id).length === 0)
  if (unknown.length > 0) return { problems: unknown.flatMap((id) => unknownId(stages, id).problems) }
  const named = of.flatMap((id) => project.pieces[id]?.parts ?? [id])
  const parts = of.length === 0 ? [...instances.byId.keys()] : named.flatMap((id) => idsMeant(instances, id))
  const onePiece = of.length === 1 ? stages.mass.pieces[of[0] as string] : undefined
  return onePiece?.[as] ?? stages.mass.ofSet([...new Set(parts)], as)
}

function weighedPiece({ mass: masses, model: { project } }: Masses, of: readonly string[]): SetMass | Refusal {
  const [piece = '', ...others] = of
  const weighed = others.length === 0 ? masses.pieces[piece]?.weighed : undefined
  if (weighed !== undefined) return weighed
  const known = Object.keys(project.pieces).filter((id) => masses.pieces[id]?.weighed !== undefined)
  return usageProblem(
    '--as weighed',
    of.length === 0 ? 'no piece' : of.join(','),
    'one piece that has been weighed',
    known[0],
  )
}

function unknownId({ model: { instances, project } }: Masses, id: string): Refusal {
  const known = [...instances.byId.keys(), ...instances.ofEntry.keys(), ...Object.keys(project.pieces)]
  return usageProblem('--of', `"${id}"`, 'the id of a part, an entry or a piece', nearestId(id, known))
}

function massJson(set: SetMass, units: UnitSystem) {
  return {
    mass: set.net.value,
    cog: set.cogSite,
    inertia: set.inertia,
    bounds: set.boundsSite,
    uncertainty: set.uncertainty.value,
    parts: set.parts,
    retained: set.retained.value,
    allowance: set.allowance.value,
    design: set.design.value,
    lower: set.lower.value,
    cogMachine: set.cogMachine,
    cogUncertainty: set.cogUncertainty,
    working: {
      mass: workingJson(set.net, units),
      uncertainty: workingJson(set.uncertainty, units),
      design: workingJson(set.design, units),
    },
  }
}

function massText(set: SetMass, units: UnitSystem): string {
  const kg = (value: number | undefined) => showQuantity(value, 'kg', units)
  const m = (value: number | undefined) => showQuantity(value, 'm', units)
  const masses = [
    ['net', kg(set.net.value)],
    ['standard uncertainty', kg(set.uncertainty.value)],
    ['retained', kg(set.retained.value)],
    ['allowance', kg(set.allowance.value)],
    ['upper design mass', kg(set.design.value)],
    ['lower design mass', kg(set.lower.value)],
  ]
  const { min, max } = set.boundsSite
  const places = (['x', 'y', 'z'] as const).map((axis, i) => [axis, m(set.cogSite[i]), m(min[i]), m(max[i])])
  const decimal = { align: 'decimal' } as const
  return [
    `${set.parts.length} parts\n`,
    table([{ title: 'mass' }, { title: '', ...decimal }], masses),
    table(
      [
        { title: 'site' },
        { title: 'centre of gravity', ...decimal },
        { title: 'least', ...decimal },
        { title: 'greatest', ...decimal },
      ],
      places,
    ),
  ].join('\n')
}
