import type { Point2 } from './convex.ts'

type Segment = readonly [Point2, Point2]

/** Ends that lie closer are the same, m. */
const SAME = 1e-6

/** Outline of what several convex outlines cover together, as lines from end to end; each goes round to the left. */
export function aroundAll(outlines: readonly (readonly Point2[])[]): Point2[][] {
  const edges = outlines.flatMap((outline, i) =>
    outline.flatMap((from, k): Segment[] => {
      const edge: Segment = [from, outline[(k + 1) % outline.length] as Point2]
      return outlines.reduce<Segment[]>(
        (left, other, j) => {
          // of two edges that lie on one another the first outline keeps its own
          return i === j ? left : left.flatMap((part) => outside(part, other, j < i))
        },
        [edge],
      )
    }),
  )
  return chained(edges)
}

/** What of a segment lies outside a convex outline. @param onEdge whether what lies on its edge counts as inside */
function outside([a, b]: Segment, outline: readonly Point2[], onEdge: boolean): Segment[] {
  let [enters, leaves] = [0, 1]
  for (const [k, [x, y]] of outline.entries()) {
    const [u, v] = outline[(k + 1) % outline.length] as Point2
    const length = Math.hypot(u - x, v - y)
    if (length < SAME) continue
    // to the left of the edge is inside, m
    const depth = ([p, q]: Point2): number => ((u - x) * (q - y) - (v - y) * (p - x)) / length + (onEdge ? SAME : -SAME)
    const [from, to] = [depth(a), depth(b)]
    if (from <= 0 && to <= 0) return [[a, b]]
    const at = from / (from - to)
    if (from <= 0) enters = Math.max(enters, at)
    else if (to <= 0) leaves = Math.min(leaves, at)
  }
  if (enters >= leaves) return [[a, b]]
  const on = (t: number): Point2 => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]
  const parts: Segment[] = [
    [a, on(enters)],
    [on(leaves), b],
  ]
  return parts.filter(([from, to]) => Math.hypot(to[0] - from[0], to[1] - from[1]) > SAME)
}

/** Segments joined end to end, as far as they meet. */
function chained(segments: readonly Segment[]): Point2[][] {
  const left = [...segments]
  const lines: Point2[][] = []
  while (left.length > 0) {
    const line: Point2[] = [...(left.shift() as Segment)]
    for (let next = followOn(line, left); next >= 0; next = followOn(line, left))
      line.push((left.splice(next, 1)[0] as Segment)[1])
    for (let before = leadingTo(line, left); before >= 0; before = leadingTo(line, left))
      line.unshift((left.splice(before, 1)[0] as Segment)[0])
    lines.push(line)
  }
  return lines
}

const near = (a: Point2, b: Point2): boolean => Math.hypot(a[0] - b[0], a[1] - b[1]) < 4 * SAME

const followOn = (line: readonly Point2[], left: readonly Segment[]): number =>
  left.findIndex(([from]) => near(from, line.at(-1) as Point2))

const leadingTo = (line: readonly Point2[], left: readonly Segment[]): number =>
  left.findIndex(([, to]) => near(to, line[0] as Point2))
