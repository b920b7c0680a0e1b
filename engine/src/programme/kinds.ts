import type { CheckKind } from '../working/check.ts'

export const programmeKinds: readonly CheckKind[] = []
