/** Vectors and 3×3 matrices as plain arrays. Pure arithmetic: no frame, no unit; the caller's names say which. */
export type Vec3 = readonly [number, number, number]
/** Rows of a 3×3 matrix. */
export type Mat3 = readonly [Vec3, Vec3, Vec3]

export const ZERO: Vec3 = [0, 0, 0]
export const IDENTITY: Mat3 = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
]

export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
export const subtract = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
export const scale = (a: Vec3, k: number): Vec3 => [a[0] * k, a[1] * k, a[2] * k]
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
]
/** The root of the squares: in inner loops many times faster than `Math.hypot`, and lengths here are far from overflow. */
export const norm = (a: Vec3): number => Math.sqrt(dot(a, a))
export const distance = (a: Vec3, b: Vec3): number => norm(subtract(a, b))
/** Unit vector; the zero vector stays as it is. */
export const unit = (a: Vec3): Vec3 => {
  const length = norm(a)
  return length === 0 ? a : scale(a, 1 / length)
}

/** Between two unit vectors, rad. */
export const angleBetween = (a: Vec3, b: Vec3): number => Math.acos(Math.min(1, Math.max(-1, dot(a, b))))

export const apply = (m: Mat3, v: Vec3): Vec3 => [dot(m[0], v), dot(m[1], v), dot(m[2], v)]
/** transpose(m) · v: a rotation taken back. */
export const applyBack = (m: Mat3, v: Vec3): Vec3 => [
  m[0][0] * v[0] + m[1][0] * v[1] + m[2][0] * v[2],
  m[0][1] * v[0] + m[1][1] * v[1] + m[2][1] * v[2],
  m[0][2] * v[0] + m[1][2] * v[1] + m[2][2] * v[2],
]
export const transpose = (m: Mat3): Mat3 => [
  [m[0][0], m[1][0], m[2][0]],
  [m[0][1], m[1][1], m[2][1]],
  [m[0][2], m[1][2], m[2][2]],
]
export const multiply = (a: Mat3, b: Mat3): Mat3 => {
  const t = transpose(b)
  return [apply(t, a[0]), apply(t, a[1]), apply(t, a[2])]
}
export const addMatrix = (a: Mat3, b: Mat3): Mat3 => [add(a[0], b[0]), add(a[1], b[1]), add(a[2], b[2])]
export const scaleMatrix = (m: Mat3, k: number): Mat3 => [scale(m[0], k), scale(m[1], k), scale(m[2], k)]

/** Rotation by `angle` about x, y or z, right-handed. */
export function rotationAbout(axis: 'x' | 'y' | 'z', angle: number): Mat3 {
  const [c, s] = [Math.cos(angle), Math.sin(angle)]
  if (axis === 'x') {
    return [
      [1, 0, 0],
      [0, c, -s],
      [0, s, c],
    ]
  }
  if (axis === 'y') {
    return [
      [c, 0, s],
      [0, 1, 0],
      [-s, 0, c],
    ]
  }
  return [
    [c, -s, 0],
    [s, c, 0],
    [0, 0, 1],
  ]
}

/** Rotation about the direction of `turn` by its length (rad), right-handed. */
export function rotationBy(turn: Vec3): Mat3 {
  const angle = norm(turn)
  if (angle === 0) return IDENTITY
  const [x, y, z] = scale(turn, 1 / angle)
  const [c, s] = [Math.cos(angle), Math.sin(angle)]
  const k = 1 - c
  return [
    [c + x * x * k, x * y * k - z * s, x * z * k + y * s],
    [y * x * k + z * s, c + y * y * k, y * z * k - x * s],
    [z * x * k - y * s, z * y * k + x * s, c + z * z * k],
  ]
}

/** A rigid placement: p ↦ turn · p + shift. */
export interface Pose {
  turn: Mat3
  shift: Vec3
}

export const AT_REST: Pose = { turn: IDENTITY, shift: ZERO }
export const place = (pose: Pose, p: Vec3): Vec3 => add(apply(pose.turn, p), pose.shift)
/** First `inner`, then `outer`. */
export const compose = (outer: Pose, inner: Pose): Pose => ({
  turn: multiply(outer.turn, inner.turn),
  shift: add(apply(outer.turn, inner.shift), outer.shift),
})
export const inverse = (pose: Pose): Pose => {
  const turn = transpose(pose.turn)
  return { turn, shift: scale(apply(turn, pose.shift), -1) }
}
