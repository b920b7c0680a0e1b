import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { add, apply, rotationBy, scale, type Vec3 } from '../numeric/vector.ts'
import { type HeldBody, holding, leastFriction, type Pressed, type PressPoint, steadiness } from './statics.ts'

const DOWN: Vec3 = [0, 0, -1]
const UP: Vec3 = [0, 0, 1]

/** A block by its least and greatest corner, 1 N. */
const block = (id: string, low: Vec3, high: Vec3, weight = 1): HeldBody => ({
  id,
  weight,
  cog: scale(add(low, high), 0.5),
  corners: [low[0], high[0]].flatMap((x) =>
    [low[1], high[1]].flatMap((y) => [low[2], high[2]].map((z): Vec3 => [x, y, z])),
  ),
})

/** A rectangle that carries from below. */
const bed = (body: string, x: readonly [number, number], y: readonly [number, number], z: number, against?: string) =>
  x.flatMap((u) =>
    y.map((v): PressPoint => ({ at: [u, v, z], into: UP, body, ...(against === undefined ? {} : { against }) })),
  )

const turned = (pressed: Pressed, turn: Vec3): Pressed => {
  const m = rotationBy(turn)
  return {
    down: apply(m, pressed.down),
    bodies: pressed.bodies.map((b) => ({ ...b, cog: apply(m, b.cog), corners: b.corners.map((c) => apply(m, c)) })),
    points: pressed.points.map((p) => ({ ...p, at: apply(m, p.at), into: apply(m, p.into) })),
  }
}

/** A block b long and h high on a plane that leans by `angle`: gravity leans instead. */
const incline = (b: number, h: number, angle: number): Pressed => ({
  bodies: [block('block', [0, 0, 0], [b, b, h])],
  points: bed('block', [0, b], [0, b], 0),
  down: [Math.sin(angle), 0, -Math.cos(angle)],
})

describe('bodies held by contact alone', () => {
  // Elementary statics, derived: a block slides where tan φ exceeds the friction, and tips where it exceeds b / h.
  it('a low block on a plane that leans begins to slide where the slope is the friction', () => {
    expect(leastFriction(incline(2, 1, 0.3))).toBeCloseTo(Math.tan(0.3), 5)
    expect(holding(incline(2, 1, 0.3), 0)).toMatchObject({ held: false, moves: [{ body: 'block', how: 'slides' }] })
  })

  it('a tall block tips where the slope passes base over height, whatever the friction', () => {
    const tip = Math.atan(1 / 3)
    expect(holding(incline(1, 3, tip - 1e-3), 0.8).held).toBe(true)
    expect(holding(incline(1, 3, tip + 1e-3), 0.8)).toMatchObject({
      held: false,
      moves: [{ body: 'block', how: 'tips' }],
    })
    expect(leastFriction(incline(1, 3, tip + 1e-3))).toBeUndefined()
  })

  // Uniform ladder against a smooth wall, as in textbooks of statics (from memory): friction at the foot 1 / (2 tan θ).
  it('a ladder against a smooth wall stands from a friction of 1 / (2 tan θ) at its foot', () => {
    const theta = 1.1
    const [x, z] = [Math.cos(theta), Math.sin(theta)]
    const ladder: Pressed = {
      bodies: [
        {
          id: 'ladder',
          weight: 200,
          cog: [x / 2, 0, z / 2],
          corners: block('', [0, -0.2, 0], [x, 0.2, z]).corners,
        },
      ],
      points: [-0.2, 0.2].flatMap((y): PressPoint[] => [
        { at: [0, y, 0], into: UP, body: 'ladder' },
        { at: [x, y, z], into: [-1, 0, 0], body: 'ladder' },
      ]),
      down: DOWN,
    }
    expect(leastFriction(ladder)).toBeCloseTo(1 / (2 * Math.tan(theta)), 5)
  })

  // Greatest overhang of n equal blocks, half the harmonic number of n (derived: the centre above each edge).
  it.each([1, 2, 3, 4, 6])('%i equal blocks reach half the harmonic number over an edge, and no more', (n) => {
    const stack = (share: number): Pressed => {
      const shifts = Array.from({ length: n }, (_, i) => (share * 1) / (2 * (n - i)))
      let x = -1
      const starts = shifts.map((shift) => {
        x += shift
        return x
      })
      return {
        bodies: starts.map((start, i) => block(`${i}`, [start, 0, i], [start + 1, 1, i + 1])),
        points: starts.flatMap((start, i) =>
          i === 0
            ? bed('0', [start, 0], [0, 1], 0)
            : bed(`${i}`, [start, (starts[i - 1] as number) + 1], [0, 1], i, `${i - 1}`),
        ),
        down: DOWN,
      }
    }
    expect(holding(stack(0.999), 0).held).toBe(true)
    const beyond = holding(stack(1.001), 0)
    expect(beyond.held).toBe(false)
    expect(beyond.moves.some(({ how }) => how === 'tips')).toBe(true)
  })

  it('a keystone between two leaning faces is held without friction; upside down it drops', () => {
    const half = 0.3
    const keystone = (sign: 1 | -1): Pressed => ({
      bodies: [block('key', [-0.5, 0, 0], [0.5, 1, 1])],
      points: [-1, 1].flatMap((side) =>
        [0, 1].flatMap((y) =>
          [0.2, 0.8].map(
            (z): PressPoint => ({
              at: [side * (0.5 + sign * (z - 0.5) * Math.tan(half)), y, z],
              into: [-side * Math.cos(half), 0, sign * Math.sin(half)],
              body: 'key',
            }),
          ),
        ),
      ),
      down: DOWN,
    })
    expect(holding(keystone(1), 0).held).toBe(true)
    expect(holding(keystone(-1), 0.5)).toMatchObject({ held: false, moves: [{ body: 'key', how: 'drops' }] })
  })

  it('no clamping is made up: a block between two plumb faces is not held by any friction', () => {
    const clamped: Pressed = {
      bodies: [block('loose', [0, 0, 0], [1, 1, 1], 500)],
      points: [0, 1].flatMap((x) =>
        [0, 1].flatMap((y) =>
          [0, 1].map((z): PressPoint => ({ at: [x, y, z], into: [x === 0 ? 1 : -1, 0, 0], body: 'loose' })),
        ),
      ),
      down: DOWN,
    }
    const found = holding(clamped, 0.9)
    expect(found).toMatchObject({ held: false, moves: [{ body: 'loose', how: 'drops' }] })
    expect(found.props).toEqual([{ body: 'loose', force: expect.closeTo(500, 6) }])
  })

  it('a lintel on one post needs a prop for what its centre of gravity takes beyond the post', () => {
    // 10 N, 4 m long, on a post from x = 0 to x = 1: moments about the edge at 1 leave 10 × 1 / 3 N at the far end.
    const lintel: Pressed = {
      bodies: [block('lintel', [0, 0, 2], [4, 1, 3], 10)],
      points: bed('lintel', [0, 1], [0, 1], 2),
      down: DOWN,
    }
    const found = holding(lintel, 0.3)
    expect(found.moves).toEqual([{ body: 'lintel', how: 'tips' }])
    expect(found.props).toEqual([{ body: 'lintel', force: expect.closeTo(10 / 3, 6) }])
  })

  // Elementary kinematics, derived: the beam turns about the edge it rests on, and what lies on it turns with it.
  it('what lies on a beam that tips tips with it, wherever on the beam it lies', () => {
    for (const from of [0, 0.8, 2, 4.5]) {
      const stack: Pressed = {
        bodies: [block('beam', [0, 0, 0], [6, 1, 0.5], 4), block('crate', [from, 0, 0.5], [from + 1.2, 1, 1], 0.5)],
        points: [
          ...bed('beam', [0, 0.5], [0, 1], 0),
          ...bed('crate', [from, Math.min(from + 1.2, 6)], [0, 1], 0.5, 'beam'),
        ],
        down: DOWN,
      }
      for (const friction of [0, 0.3])
        expect(holding(stack, friction).moves).toEqual([
          { body: 'beam', how: 'tips' },
          { body: 'crate', how: 'tips' },
        ])
    }
  })

  it('a thin plate on one of its corners tips, and a block on a steep face slides', () => {
    const plate: Pressed = {
      bodies: [block('plate', [0, 0, 0], [2, 2, 0])],
      points: [{ at: [0, 0, 0], into: UP, body: 'plate' }],
      down: DOWN,
    }
    expect(holding(plate, 0).moves).toEqual([{ body: 'plate', how: 'tips' }])
    expect(holding(incline(2, 1, 1.2), 0).moves).toEqual([{ body: 'block', how: 'slides' }])
  })

  it('what rests on a falling body falls with it, and one prop serves both', () => {
    const two: Pressed = {
      bodies: [block('lower', [0, 0, 2], [1, 1, 3], 3), block('upper', [0, 0, 3], [1, 1, 4], 2)],
      points: bed('upper', [0, 1], [0, 1], 3, 'lower'),
      down: DOWN,
    }
    const found = holding(two, 0)
    expect(found.props.reduce((sum, p) => sum + p.force, 0)).toBeCloseTo(5, 6)
    expect(found.moves.map((m) => m.body)).toContain('lower')
  })

  it('a block stands a sideways share of friction, or of half its base over half its height, whichever is less', () => {
    const standing = (h: number): Pressed => ({ ...incline(1, h, 0), down: DOWN })
    expect(steadiness(standing(0.5), 0.3)).toBeCloseTo(0.3 * Math.cos(Math.PI / 8), 1)
    expect(steadiness(standing(5), 0.9)).toBeCloseTo(0.2, 6)
    expect(steadiness(standing(5), 0)).toBe(0)
  })

  const scenes = fc.record({
    b: fc.double({ min: 0.3, max: 3, noNaN: true }),
    h: fc.double({ min: 0.3, max: 3, noNaN: true }),
    angle: fc.double({ min: 0, max: 0.9, noNaN: true }),
    friction: fc.double({ min: 0, max: 1, noNaN: true }),
  })

  it('the frame does not matter, and more friction never lets go', () => {
    const seen = { held: 0, falls: 0 }
    fc.assert(
      fc.property(
        scenes,
        fc.tuple(...[1, 2, 3].map(() => fc.double({ min: -2, max: 2, noNaN: true }))),
        ({ b, h, angle, friction }, turn) => {
          const slope = Math.tan(angle)
          fc.pre(Math.abs(slope - friction) > 1e-3 && Math.abs(slope - b / h) > 1e-3)
          const { held } = holding(incline(b, h, angle), friction)
          expect(held).toBe(slope < friction && slope < b / h)
          expect(holding(turned(incline(b, h, angle), turn as unknown as Vec3), friction).held).toBe(held)
          // a friction above 1 could lock a wedge at the slopes that it holds, and is not counted there
          if (held && friction <= 0.8) expect(holding(incline(b, h, angle), friction + 0.2).held).toBe(true)
          seen[held ? 'held' : 'falls']++
        },
      ),
    )
    expect(Math.min(seen.held, seen.falls)).toBeGreaterThan(5)
  })
})
