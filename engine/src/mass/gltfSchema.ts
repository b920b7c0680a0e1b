import { z } from 'zod'

/** What of a glTF 2.0 file says where its triangles are; all else in it is passed over. */
const index = z.int().min(0)
const extensions = z.record(z.string(), z.unknown()).optional()
const numbers = (count: number) => z.array(z.number()).length(count)

const buffer = z.object({ uri: z.string().optional(), byteLength: z.int().min(1) })

const bufferView = z.object({
  buffer: index,
  byteOffset: z.int().min(0).default(0),
  byteLength: z.int().min(1),
  byteStride: z.int().min(4).max(252).optional(),
})

const accessor = z.object({
  bufferView: index.optional(),
  byteOffset: z.int().min(0).default(0),
  componentType: z.int(),
  count: z.int().min(1),
  type: z.string(),
  normalized: z.boolean().optional(),
  sparse: z.unknown().optional(),
})

const primitive = z.object({
  attributes: z.record(z.string(), index),
  indices: index.optional(),
  mode: z.int().default(4),
  targets: z.array(z.unknown()).default([]),
  extensions,
})

const node = z.object({
  children: z.array(index).default([]),
  mesh: index.optional(),
  skin: index.optional(),
  matrix: numbers(16).optional(),
  translation: numbers(3).optional(),
  rotation: numbers(4).optional(),
  scale: numbers(3).optional(),
  extensions,
})

export const gltf = z.object({
  asset: z.object({ version: z.string(), minVersion: z.string().optional() }),
  extensionsRequired: z.array(z.string()).default([]),
  buffers: z.array(buffer).default([]),
  bufferViews: z.array(bufferView).default([]),
  accessors: z.array(accessor).default([]),
  meshes: z.array(z.object({ primitives: z.array(primitive).min(1) })).default([]),
  nodes: z.array(node).default([]),
  scene: index.optional(),
  scenes: z.array(z.object({ nodes: z.array(index).default([]) })).default([]),
})

export type Gltf = z.output<typeof gltf>
export type GltfPrimitive = z.output<typeof primitive>
export type GltfNode = z.output<typeof node>
