import { type GroundResult, ground } from './ground/index.ts'
import { type LiftResult, lift } from './lift/index.ts'
import { type MassResult, mass } from './mass/index.ts'
import { type Model, model } from './model/index.ts'
import type { Mesh } from './numeric/mesh.ts'
import { type ProgrammeResult, programme } from './programme/index.ts'
import { type ReportResult, report } from './report/index.ts'
import { type RiskResult, risk } from './risk/index.ts'
import { type StripResult, strip } from './strip/index.ts'
import type { Check } from './working/check.ts'
import { freshMemory, type Memory } from './working/memory.ts'
import type { Problem } from './working/problem.ts'

/** Everything that follows from one project. */
export interface Stages {
  model: Model
  mass: MassResult
  strip: StripResult
  lift: LiftResult
  ground: GroundResult
  programme: ProgrammeResult
  risk: RiskResult
  report: ReportResult
  /** Every check of every stage, in the order of the stages. */
  checks: readonly Check[]
}

export type Derived = { problems: readonly Problem[]; stages?: undefined } | { problems: readonly []; stages: Stages }

/**
 * project file ─► model ─► mass ─► strip ─► lift ─► ground ─► programme ─► risk ─► report
 *
 * Decisions in the document are verified, never made. A stage reads only what lies to its left.
 *
 * @param document plain data, as parsed from JSON or YAML; it is not changed
 * @param memory what an earlier derivation remembers; only what hangs from a change is computed again
 * @param meshes closed meshes that lie beside the document, by content hash
 */
export function derive(document: unknown, memory: Memory = freshMemory(), meshes?: ReadonlyMap<string, Mesh>): Derived {
  const read = model(document, memory, meshes)
  if (read.model === undefined) return { problems: read.problems }
  const m = read.model
  const masses = mass(m, memory)
  const order = strip(m, masses, memory)
  const lifts = lift(m, masses, order, memory)
  const grounds = ground(m, masses, order, lifts, memory)
  const plan = programme(m, masses, order, lifts, grounds, memory)
  const risks = risk(m, lifts, plan, memory)
  const documents = report(m, masses, order, lifts, grounds, plan, risks, memory)
  const checks = [masses, order, lifts, grounds, plan, risks, documents].flatMap((stage) => stage.checks)
  return {
    problems: [],
    stages: {
      model: m,
      mass: masses,
      strip: order,
      lift: lifts,
      ground: grounds,
      programme: plan,
      risk: risks,
      report: documents,
      checks,
    },
  }
}
