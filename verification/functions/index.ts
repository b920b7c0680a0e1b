import type { VerifiedFunction } from '../types.ts'
import { functions as ground } from './ground.ts'
import { functions as lift } from './lift.ts'
import { functions as mass } from './mass.ts'
import { functions as people } from './people.ts'
import { functions as programme } from './programme.ts'
import { functions as risk } from './risk.ts'
import { functions as strip } from './strip.ts'

/** Every function that a case may call by name. */
export const functions: ReadonlyMap<string, VerifiedFunction> = new Map(
  [mass, strip, lift, ground, programme, people, risk].flatMap((stage) => Object.entries(stage)),
)
