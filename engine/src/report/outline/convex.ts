/** A point of a view, m: across and up. */
export type Point2 = readonly [u: number, v: number]

/** Signed area of a closed loop: positive anticlockwise. */
export const loopArea = (loop: readonly Point2[]): number =>
  loop.reduce((sum, [u, v], i) => {
    const [nextU, nextV] = loop[(i + 1) % loop.length] as Point2
    return sum + (u * nextV - v * nextU) / 2
  }, 0)

/** Least and greatest of each coordinate. */
export interface Frame2 {
  left: number
  right: number
  bottom: number
  top: number
}

export function frameOf(points: readonly Point2[]): Frame2 {
  const frame = { left: Infinity, right: -Infinity, bottom: Infinity, top: -Infinity }
  for (const [u, v] of points) {
    frame.left = Math.min(frame.left, u)
    frame.right = Math.max(frame.right, u)
    frame.bottom = Math.min(frame.bottom, v)
    frame.top = Math.max(frame.top, v)
  }
  return frame
}
