import type { CheckKind } from '../working/check.ts'

export const riskKinds: readonly CheckKind[] = []
