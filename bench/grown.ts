import { readQuantity } from '../engine/src/working/quantity.ts'

type Raw = Readonly<Record<string, unknown>>

/** Copies stand one behind the other along the drive, as the parts of a longer machine would. */
const APART = 40

/** A project of masses alone, with every part entry of another repeated until there are as many entries as asked for. */
export function grownProject(document: { parts: Raw }, entries: number): unknown {
  const { schemaVersion, about, settings, materials } = document as Raw
  const known = Object.entries(document.parts)
  const parts = Array.from({ length: entries }, (_, i) => {
    const [id, part] = known[i % known.length] as [string, Raw]
    const copy = Math.floor(i / known.length)
    return [`${id}-${copy}`, movedPart(part, copy * APART)] as const
  })
  return { schemaVersion, about, settings, materials, parts: Object.fromEntries(parts) }
}

/** A part further along, without what names other parts. */
export function movedPart(part: Raw, by: number): unknown {
  const { overlapAccepted: _others, ...own } = part
  return { ...own, solids: (part.solids as Raw[]).map((solid) => movedSolid(solid, by)) }
}

function movedSolid(solid: Raw, by: number): unknown {
  const further = (text: string) => `${(readQuantity(text, 'm') as number) + by} m`
  const point = (name: string) => {
    const at = solid[name] as string[] | undefined
    return at === undefined ? {} : { [name]: [further(at[0] as string), ...at.slice(1)] }
  }
  const along = solid.along as string[] | undefined
  return {
    ...solid,
    ...(along === undefined ? {} : { along: along.map(further) }),
    ...['from', 'to', 'centre', 'at'].reduce((all, name) => Object.assign(all, point(name)), {}),
  }
}
