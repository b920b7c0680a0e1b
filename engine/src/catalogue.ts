import { groundKinds } from './ground/index.ts'
import { liftKinds } from './lift/index.ts'
import { massKinds } from './mass/index.ts'
import { programmeKinds } from './programme/index.ts'
import { riskKinds } from './risk/index.ts'
import { stripKinds } from './strip/index.ts'
import type { CheckKind } from './working/check.ts'

/** Every kind of check that is computed, by stage. */
export const checkKinds: readonly CheckKind[] = [
  massKinds,
  stripKinds,
  liftKinds,
  groundKinds,
  programmeKinds,
  riskKinds,
].flat()
