import type { Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import { type Camera, OrthographicCamera, PerspectiveCamera, Vector3 } from 'three'
import type { Box3 } from './bounds.ts'

/** How one looks: at a point, from a direction, from how far; parallel as a drawing, or as the eye sees. */
export interface Looking {
  target: Vector3
  /** From site x towards y, rad. */
  around: number
  /** Above the horizon, rad. */
  up: number
  distance: number
  parallel: boolean
}

const FIELD = (24 * Math.PI) / 180
const STEEPEST = Math.PI / 2 - 1e-4
const NEAREST = 1
const FARTHEST = 600
/** A point at the edge of the view has so much around it. */
const ROOM = 1.06

export function lookingAt(target: Vector3, around: number, up: number, distance: number, parallel = false): Looking {
  return { target, around, up, distance, parallel }
}

/** From the target to the eye. */
export function towardsEye({ around, up }: Looking, into = new Vector3()): Vector3 {
  return into.set(Math.cos(up) * Math.cos(around), Math.cos(up) * Math.sin(around), Math.sin(up))
}

export interface Eye {
  camera: () => Camera
  look: Looking
  /** Metres that a pixel spans at the target. */
  metresAPixel: () => number
  resize: (width: number, height: number) => void
  /** Writes the look to the camera. */
  settle: () => void
  turn: (across: number, up: number) => void
  shift: (right: number, up: number) => void
  nearer: (factor: number, at?: { x: number; y: number }) => void
  /** Looks at the middle of a box from as far as all of it is seen, and every one of further points. */
  fit: (box: Box3, room?: number, also?: readonly Vec3[]) => void
}

/** @param around what is drawn lies within this ball: depth is parted as finely as that allows */
export function eyeOf(look: Looking, around: { centre: Vector3; radius: number }): Eye {
  const perspective = new PerspectiveCamera((FIELD * 180) / Math.PI, 1, 0.5, 1500)
  const parallel = new OrthographicCamera(-1, 1, 1, -1, -1000, 2000)
  let [width, height] = [1, 1]
  const [side, above, out] = [new Vector3(), new Vector3(), new Vector3()]
  const axes = (): void => {
    const { around } = look
    towardsEye(look, out)
    side.set(-Math.sin(around), Math.cos(around), 0)
    above.crossVectors(out, side)
  }
  const halfHigh = (): number => look.distance * Math.tan(FIELD / 2)
  const metresAPixel = (): number => (2 * halfHigh()) / height
  /** From how far a point beside the target is just seen, with a little room. */
  const distanceFor = (d: Vector3): number => {
    const off = Math.max(Math.abs(d.dot(above)), (Math.abs(d.dot(side)) * height) / width)
    return (ROOM * off) / Math.tan(FIELD / 2) + (look.parallel ? 0 : d.dot(out))
  }
  const settle = (): void => {
    axes()
    for (const camera of [perspective, parallel]) {
      camera.up.copy(above)
      camera.position.copy(look.target).addScaledVector(out, look.distance)
      camera.lookAt(look.target)
    }
    perspective.aspect = width / height
    const away = perspective.position.distanceTo(around.centre)
    perspective.near = Math.max(0.4, 0.1 * look.distance, away - around.radius)
    perspective.far = away + around.radius + 1
    const half = halfHigh()
    parallel.left = (-half * width) / height
    parallel.right = (half * width) / height
    parallel.top = half
    parallel.bottom = -half
    parallel.near = away - around.radius - 1
    parallel.far = away + around.radius + 1
    perspective.updateProjectionMatrix()
    parallel.updateProjectionMatrix()
    perspective.updateMatrixWorld()
    parallel.updateMatrixWorld()
  }
  return {
    camera: () => (look.parallel ? parallel : perspective),
    look,
    metresAPixel,
    settle,
    resize: (w, h) => {
      width = Math.max(1, w)
      height = Math.max(1, h)
    },
    turn: (across, up) => {
      look.around += across
      look.up = Math.min(STEEPEST, Math.max(-STEEPEST, look.up + up))
      look.parallel = false
    },
    shift: (right, up) => {
      axes()
      look.target.addScaledVector(side, right).addScaledVector(above, up)
    },
    nearer: (factor, at) => {
      const before = metresAPixel()
      look.distance = Math.min(FARTHEST, Math.max(NEAREST, look.distance * factor))
      if (at === undefined) return
      const lost = before - metresAPixel()
      axes()
      look.target.addScaledVector(side, (at.x - width / 2) * lost).addScaledVector(above, (height / 2 - at.y) * lost)
    },
    fit: ({ min, max }, room = 1.12, also = []) => {
      axes()
      let [wide, high] = [0, 0]
      const middle = new Vector3((min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2)
      for (const x of [min[0], max[0]])
        for (const y of [min[1], max[1]])
          for (const z of [min[2], max[2]]) {
            const d = new Vector3(x, y, z).sub(middle)
            const depth = look.parallel ? 0 : Math.max(0, d.dot(out))
            wide = Math.max(wide, Math.abs(d.dot(side)) + (depth * Math.tan(FIELD / 2) * width) / height)
            high = Math.max(high, Math.abs(d.dot(above)) + depth * Math.tan(FIELD / 2))
          }
      look.target.copy(middle)
      look.distance = Math.min(
        FARTHEST,
        Math.max(
          NEAREST,
          (room * Math.max(high, (wide * height) / width)) / Math.tan(FIELD / 2),
          ...also.map((p) => distanceFor(new Vector3(...p).sub(middle))),
        ),
      )
    },
  }
}
