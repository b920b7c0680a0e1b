/** A project of masses alone, with every part entry of another repeated until there are as many entries as asked for. */
export function grownProject(document: { parts: Readonly<Record<string, unknown>> }, entries: number): unknown {
  const { schemaVersion, about, settings, materials } = document as Readonly<Record<string, unknown>>
  const known = Object.entries(document.parts).map(([id, part]) => [id, alone(part)] as const)
  const parts = Array.from({ length: entries }, (_, i) => {
    const [id, part] = known[i % known.length] as (typeof known)[number]
    return [`${id}-${Math.floor(i / known.length)}`, part] as const
  })
  return { schemaVersion, about, settings, materials, parts: Object.fromEntries(parts) }
}

/** A part without what names other parts. */
function alone(part: unknown): unknown {
  const { overlapAccepted: _others, ...own } = part as Record<string, unknown>
  return own
}
