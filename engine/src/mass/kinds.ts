import type { CheckKind } from '../working/check.ts'

export const massKinds: readonly CheckKind[] = []
