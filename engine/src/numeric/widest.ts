/** A direction in a plane, rad, and how far two things are apart along it, m. */
export interface Widest {
  angle: number
  gap: number
}

/** Of the gap, from the line that bounds it: the widest is found, m. */
const CLOSE = 1e-10
/** Nor is a direction looked for more closely, rad. */
const NARROW = 1e-8
/** Between the two looks that give a slope, rad. */
const BESIDE = 1e-5
const MOST_LOOKS = 40
const FAN = 24
const STEP = (2 * Math.PI) / FAN

/**
 * The direction in which two convex things are farthest apart, of the directions in one plane: there the gap is their distance, seen
 * along the plane; below zero it is the least way out of one another.
 *
 * The gap along a direction at an angle is the least, over all pairs of their points, of a·cos + b·sin of it: each pair that is the
 * nearest along one direction bounds the gap along all others. Two such bounds, one that rises and one that falls, meet over the next
 * direction to look along; where the gap comes up to them nothing is wider. Corners and faces are found in a few looks, round things in
 * some more. Where the gap is above zero it has one peak; where it is not, the best of a fan of directions is looked about.
 *
 * @param gapAlong m, of an angle in rad: a lower bound of the distance, whichever it is
 * @param start where to look first, rad: the nearer to the widest, the fewer looks
 * @param enough a gap of this, m, ends the search: the angle then is the first at which it was reached
 */
export function widestGap(gapAlong: (angle: number) => number, start: number, enough = Infinity): Widest {
  const first = gapAlong(start)
  if (first >= enough) return { angle: start, gap: first }
  const from = first > 0 ? { angle: start, gap: first } : bestOfFan(gapAlong, start, enough)
  if (from.gap >= enough) return from
  return climbed(gapAlong, from, enough)
}

function bestOfFan(gapAlong: (angle: number) => number, start: number, enough: number): Widest {
  let best: Widest = { angle: start, gap: -Infinity }
  for (let k = 0; k < FAN; k++) {
    const angle = start + k * STEP
    const gap = gapAlong(angle)
    if (gap > best.gap) best = { angle, gap }
    if (gap >= enough) break
  }
  return best
}

/** A pair of points that is nearest along an angle: its gap is a·cos + b·sin of what is added to that angle. */
interface Look extends Widest {
  b: number
}

/** Each side of a corner has its own pair: one that rises is taken from where it comes from, one that falls from where it goes to. */
function lookAt(gapAlong: (angle: number) => number, angle: number, gap: number): Look {
  const slope = (by: number): number => (gapAlong(angle + by) - gap * Math.cos(by)) / Math.sin(by)
  const before = slope(-BESIDE)
  return { angle, gap, b: before >= 0 ? before : slope(BESIDE) }
}

const bound = ({ angle, gap, b }: Look, at: number): number => gap * Math.cos(at - angle) + b * Math.sin(at - angle)

function climbed(gapAlong: (angle: number) => number, from: Widest, enough: number): Widest {
  let best = from
  let rising: Look | undefined
  let falling: Look | undefined
  let { angle, gap } = from
  for (let looks = 0; looks < MOST_LOOKS; looks++) {
    const look = lookAt(gapAlong, angle, gap)
    if (look.b >= 0) rising = look
    else falling = look
    const next = nextAngle(rising, falling, looks % 2 === 1)
    angle = next.angle
    gap = gapAlong(angle)
    if (gap > best.gap) best = { angle, gap }
    if (best.gap >= enough || next.most - gap < CLOSE) break
    if (rising && falling && falling.angle - rising.angle < NARROW) break
  }
  return best
}

/**
 * Where the lower of both bounds is widest, and the most that the gap can be there. With a bound on one side only it is where that
 * one is widest, no farther than the next of a fan: short of there nothing is bounded. Round things turn from rising to falling slowly:
 * every second look is where their slopes, taken as straight, come to zero.
 */
function nextAngle(
  rising: Look | undefined,
  falling: Look | undefined,
  isRound: boolean,
): { angle: number; most: number } {
  if (rising === undefined || falling === undefined) {
    const look = (rising ?? falling) as Look
    const way = peakOf(look) - look.angle
    if (Math.abs(way) > STEP) return { angle: look.angle + Math.sign(way) * STEP, most: Infinity }
    return { angle: look.angle + way, most: bound(look, look.angle + way) }
  }
  if (isRound) {
    const share = rising.b / (rising.b - falling.b)
    return { angle: rising.angle + share * (falling.angle - rising.angle), most: Infinity }
  }
  const meeting = meetingOf(rising, falling)
  const [before, after] = [peakOf(rising), peakOf(falling)]
  const angle = before < meeting ? before : Math.max(after, meeting)
  return { angle, most: Math.min(bound(rising, angle), bound(falling, angle)) }
}

const peakOf = ({ angle, gap, b }: Look): number => angle + Math.atan2(b, gap)

/** Where two bounds are the same, between their angles; halfway where rounding leaves them no such place. */
function meetingOf(rising: Look, falling: Look): number {
  const apart = falling.angle - rising.angle
  const [cos, sin] = [Math.cos(apart), Math.sin(apart)]
  // of the falling one about the angle of the rising one
  const [a, b] = [falling.gap * cos - falling.b * sin, falling.gap * sin + falling.b * cos]
  const turn = Math.atan2(rising.gap - a, b - rising.b)
  const ahead = ((turn % Math.PI) + Math.PI) % Math.PI
  return ahead > 0 && ahead < apart ? rising.angle + ahead : rising.angle + apart / 2
}
