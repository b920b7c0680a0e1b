import type { VerifiedFunction } from '../types.ts'

/** What cases of this stage call by name, beside the formulas. */
export const functions: Record<string, VerifiedFunction> = {}
