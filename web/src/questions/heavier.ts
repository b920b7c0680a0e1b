import type { Patch } from '@shieldwright/engine/working/patch.ts'
import { readQuantity, writeQuantity } from '@shieldwright/engine/working/quantity.ts'

interface Masses {
  parts?: Readonly<Record<string, { mass?: { value: string } }>>
}

/** Every stated mass of a part made heavier by a share, as one patch to try; what is not readable stays as it is. */
export function heavierBy(share: number, document: unknown): Patch {
  return Object.entries((document as Masses).parts ?? {}).flatMap(([id, { mass }]) => {
    const kg = mass === undefined ? undefined : readQuantity(mass.value, 'kg')
    if (typeof kg !== 'number') return []
    const value = writeQuantity(kg * (1 + share), 'kg')
    return [{ op: 'replace' as const, path: `/parts/${id}/mass/value`, value }]
  })
}
