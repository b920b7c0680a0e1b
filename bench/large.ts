import { movedPart } from './grown.ts'

type Raw = Readonly<Record<string, unknown>>
interface Grown {
  parts: Raw
  services: Raw
  joints: Raw
}

/** Copies stand one behind the other along the drive, as gantries behind a machine do. */
const APART = -45

/**
 * A whole project made larger: the recovery as it is, and behind it copies of its parts, each bolted to the one before, with
 * services between neighbours, until there are as many part entries and services as asked for. Deterministic, and sound.
 */
export function largeProject(document: Grown, entries: number, services: number): unknown {
  const added = addedParts(document.parts, entries)
  const ids = added.map(([id]) => id)
  const known = Object.entries(document.services)
  const lines = Array.from({ length: Math.max(0, services - known.length) }, (_, i) => {
    const [, like] = known[i % known.length] as [string, Raw]
    const from = (i * 7) % ids.length
    const { isolation: _own, ...plain } = like
    return [`line-${i}`, { ...plain, from: ids[from], to: ids[(from + 1 + (i % 3)) % ids.length] }] as const
  })
  const bolts = ids.slice(1).map((id, i) => [`bolts-${id}`, jointBetween(ids[i] as string, id)] as const)
  return {
    ...document,
    parts: { ...document.parts, ...Object.fromEntries(added) },
    joints: { ...document.joints, ...Object.fromEntries(bolts) },
    services: { ...document.services, ...Object.fromEntries(lines) },
  }
}

/** Single parts: what stands in a pattern is copied once. */
function addedParts(parts: Raw, entries: number): (readonly [string, unknown])[] {
  const known = Object.entries(parts)
  return Array.from({ length: Math.max(0, entries - known.length) }, (_, i) => {
    const [id, part] = known[i % known.length] as [string, Raw]
    const { pattern: _pattern, points: _points, ...single } = part
    const copy = 1 + Math.floor(i / known.length)
    return [`${id}-c${copy}`, movedPart(single, copy * APART)] as const
  })
}

const jointBetween = (a: string, b: string): unknown => ({
  between: [a, b],
  kind: 'bolted',
  access: 'inside',
  throughBracket: true,
  bolts: { thread: 'M30', grade: '10.9', count: 12, timeOff: '6 min', timeOn: '8 min' },
})
