import type { Stages } from '@shieldwright/engine'
import { type SolidShape, solidShape } from '@shieldwright/engine/mass/index.ts'
import { solidMass } from '@shieldwright/engine/mass/solid.formulas.ts'
import { type Polygon, polygonIntegrals } from '@shieldwright/engine/numeric/polygon.ts'
import { readPointer } from '@shieldwright/engine/working/pointer.ts'
import type { SolidView } from './protocol.ts'

/** What the solid at an address comes to; undefined where there is none. */
export function solidView(stages: Stages, pointer: string): SolidView | undefined {
  const [collection, id = '', ...rest] = readPointer(pointer) ?? []
  const index = Number(rest.at(-1))
  if (collection === 'parts') return ofPart(stages, id, index)
  return collection === 'changes' ? ofChange(stages, id, index) : undefined
}

function ofPart({ model: { project }, mass }: Stages, id: string, index: number): SolidView | undefined {
  const [part, known] = [project.parts[id], mass.parts[id]]
  const shape = known?.shape.solids[index]
  if (part === undefined || known === undefined || shape === undefined) return undefined
  const own = viewOf(shape, project.materials[part.material]?.density.value)
  const [x, y, z] = known.centroid
  return {
    ...own,
    part: {
      computed: known.computed.value,
      stated: part.mass?.value.value,
      basis: part.mass?.basis,
      centre: [x.value, y.value, z.value],
    },
  }
}

/** What a change adds states its mass; its shape has no material. */
function ofChange({ model: { project, meshes } }: Stages, id: string, index: number): SolidView | undefined {
  const solid = project.changes[id]?.added?.solids?.[index]
  return solid && viewOf(solidShape(solid, meshes), undefined)
}

function viewOf({ body, volume, fill, centroid }: SolidShape, density: number | undefined): SolidView {
  const line = lineOf(body)
  const [V, f] = [volume.value, fill.value]
  const isKnown = density !== undefined && V !== undefined && f !== undefined
  return {
    section: line && Math.abs(polygonIntegrals(line).area),
    volume: V,
    mass: isKnown ? solidMass.value({ rho: density, V, f }) : undefined,
    centre: centroid,
  }
}

function lineOf(body: SolidShape['body']): Polygon | undefined {
  if (body.kind === 'revolution') return body.profile
  return body.kind === 'prism' ? body.outline : undefined
}
