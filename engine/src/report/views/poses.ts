import type { Pose } from '../../numeric/vector.ts'
import type { Scene } from './scene.ts'

/** Nearer than this in plan a piece still hangs over where it stood, m. */
const OVER_SHAFT = 6

/** The highest pose over where the piece stood: there it is clear of the collar, before it goes aside. */
export function clearPose({ poses, start, end, subject }: Pick<Scene, 'poses' | 'start' | 'end' | 'subject'>): Pose {
  const below = subject.back ? end : start
  const [x, y] = below.shift
  const over = poses.filter((p) => Math.hypot(p.shift[0] - x, p.shift[1] - y) < OVER_SHAFT)
  return over.reduce((best, p) => (p.shift[2] > best.shift[2] ? p : best), below)
}
