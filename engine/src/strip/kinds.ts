import type { CheckKind } from '../working/check.ts'

export const stripKinds: readonly CheckKind[] = []
