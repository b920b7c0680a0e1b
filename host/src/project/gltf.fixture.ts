import { Document, Logger, type Node, type Primitive, Verbosity, WebIO } from '@gltf-transform/core'

export type V3 = readonly [number, number, number]

/** Corners of a box's twelve triangles, three after three, seen counter-clockwise from outside. */
export function boxCorners([x0, y0, z0]: V3, [x1, y1, z1]: V3): V3[] {
  const at = (i: number): V3 => [i & 1 ? x1 : x0, i & 2 ? y1 : y0, i & 4 ? z1 : z0]
  const sides = [
    [0, 2, 3, 1],
    [4, 5, 7, 6],
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 4, 6, 2],
    [1, 3, 7, 5],
  ]
  return sides.flatMap(([a = 0, b = 0, c = 0, d = 0]) => [at(a), at(b), at(c), at(a), at(c), at(d)])
}

export const io = (): WebIO => new WebIO().setLogger(new Logger(Verbosity.SILENT))

/** A document with one scene, filled by `build`. */
export class Written {
  readonly document = new Document()
  readonly scene = this.document.createScene()
  private readonly buffer = this.document.createBuffer()

  /** A primitive of these corners, three after three; with indices each corner is written once for each triangle even so. */
  primitive(corners: readonly V3[], indices?: Uint8Array | Uint16Array | Uint32Array): Primitive {
    const numbers = new Float32Array(corners.flat())
    const made = this.document
      .createPrimitive()
      .setAttribute('POSITION', this.document.createAccessor().setType('VEC3').setArray(numbers).setBuffer(this.buffer))
    if (indices === undefined) return made
    return made.setIndices(this.document.createAccessor().setType('SCALAR').setArray(indices).setBuffer(this.buffer))
  }

  /** A node that holds these primitives as one mesh. */
  node(...primitives: readonly Primitive[]): Node {
    const mesh = this.document.createMesh()
    for (const primitive of primitives) mesh.addPrimitive(primitive)
    return this.document.createNode().setMesh(mesh)
  }

  glb(): Promise<Uint8Array> {
    return io().writeBinary(this.document)
  }
}

/** A GLB of one box in the scene, as `place` leaves its node. */
export function boxGlb(min: V3, max: V3, place: (node: Node) => unknown = () => {}): Promise<Uint8Array> {
  const written = new Written()
  const node = written.node(written.primitive(boxCorners(min, max)))
  written.scene.addChild(node)
  place(node)
  return written.glb()
}

type Json = Record<string, never> & { [key: string]: never }

/** The JSON of a GLB with its bytes in a data URI, changed by `change`: what a glTF file may hold. */
export async function gltfText(glb: Uint8Array, change: (json: Json) => unknown = () => {}): Promise<Uint8Array> {
  const { json, resources } = await io().binaryToJSON(glb)
  const bytes = Buffer.from(Object.values(resources)[0] as Uint8Array)
  const copy = structuredClone(json) as unknown as Json & { buffers: { uri: string }[] }
  for (const buffer of copy.buffers) buffer.uri = `data:application/octet-stream;base64,${bytes.toString('base64')}`
  change(copy)
  return new TextEncoder().encode(JSON.stringify(copy))
}
