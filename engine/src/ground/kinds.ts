import type { CheckKind } from '../working/check.ts'

export const groundKinds: readonly CheckKind[] = []
