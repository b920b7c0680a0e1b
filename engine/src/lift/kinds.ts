import type { CheckKind } from '../working/check.ts'

export const liftKinds: readonly CheckKind[] = []
