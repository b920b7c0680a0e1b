import {
  AmbientLight,
  BoxGeometry,
  BufferGeometry,
  Color,
  CylinderGeometry,
  DirectionalLight,
  DoubleSide,
  EdgesGeometry,
  Group,
  LineBasicMaterial,
  LineSegments,
  Matrix4,
  Mesh,
  MeshLambertMaterial,
  PerspectiveCamera,
  Raycaster,
  Scene as ThreeScene,
  Vector2,
  WebGLRenderer,
} from 'three'
import { OrbitControls } from 'three/addons/controls/OrbitControls.js'
import { mergeGeometries } from 'three/addons/utils/BufferGeometryUtils.js'
import type { Scene, SceneItem, SceneStep } from './scene.ts'
import { solidGeometry } from './solidGeometry.ts'

export interface Stage3d {
  /** Draws the state at a place along the order: step index plus the share of that step's way. */
  show: (at: number, picked: string | undefined) => void
  end: () => void
}

/** Draws on demand: after a change of state, size or view. Undefined where the browser has no WebGL 2. */
export function stage3d(
  place: HTMLElement,
  scene: Scene,
  onPick: (id: string | undefined) => void,
): Stage3d | undefined {
  const renderer = rendererIn(place)
  if (renderer === undefined) return undefined
  const world = new ThreeScene()
  const camera = new PerspectiveCamera(32, 1, 0.5, 600)
  camera.up.set(0, 0, 1)
  camera.position.set(30, -80, 10)
  const controls = new OrbitControls(camera, renderer.domElement)
  controls.target.set(0, 6, -17)
  controls.update()
  world.add(new AmbientLight(0xffffff, 1.5), sun(), surroundings(scene))
  const parts = new Map(scene.items.map((item) => [item.id, partMesh(item)]))
  for (const part of parts.values()) world.add(part)

  const draw = (): void => {
    world.background = new Color(colour('--sheet'))
    renderer.render(world, camera)
  }
  const resize = (): void => {
    const { clientWidth: w, clientHeight: h } = place
    renderer.setSize(w, h, false)
    camera.aspect = w / Math.max(1, h)
    camera.updateProjectionMatrix()
    draw()
  }
  const watch = new ResizeObserver(resize)
  watch.observe(place)
  controls.addEventListener('change', draw)
  const pick = picker(renderer.domElement, camera, [...parts.values()], onPick)
  resize()
  return {
    show: (at, picked) => {
      for (const [id, mesh] of parts) dress(mesh, id === picked)
      moveParts(scene, parts, at)
      draw()
    },
    end: () => {
      watch.disconnect()
      controls.dispose()
      renderer.domElement.removeEventListener('pointerup', pick)
      renderer.dispose()
      renderer.domElement.remove()
    },
  }
}

function rendererIn(place: HTMLElement): WebGLRenderer | undefined {
  try {
    const renderer = new WebGLRenderer({ antialias: true, preserveDrawingBuffer: true })
    renderer.setPixelRatio(Math.min(2, devicePixelRatio))
    place.append(renderer.domElement)
    return renderer
  } catch {
    place.textContent = 'This browser cannot draw in three dimensions; every figure of the view stands in the tables.'
    return undefined
  }
}

const colour = (name: string): string => getComputedStyle(document.documentElement).getPropertyValue(name).trim()

function sun(): DirectionalLight {
  const light = new DirectionalLight(0xffffff, 2)
  light.position.set(60, -120, 90)
  return light
}

/** Greys by group: the look has no hues to spend on parts. */
const SHADE: Readonly<Record<string, number>> = {
  'cutting head': 0x8d8f88,
  'main drive': 0x6c706a,
  'main bearing': 0x3f4743,
  seals: 0x2f3532,
  'front shield': 0xb4b1a6,
  'middle shield': 0xcbc8bd,
  'tail shield': 0xd8d5ca,
  thrust: 0x9a9c94,
  'screw conveyor': 0x7d807a,
  erector: 0xa5a69e,
  decks: 0xc0bdb2,
}

function partMesh(item: SceneItem): Mesh {
  const merged = mergeGeometries(item.solids.map((s) => plainGeometry(solidGeometry(s)))) ?? new BufferGeometry()
  const mesh = new Mesh(merged, new MeshLambertMaterial({ color: SHADE[item.group] ?? 0xa5a69e, side: DoubleSide }))
  mesh.userData = { id: item.id, shade: SHADE[item.group] ?? 0xa5a69e }
  mesh.matrixAutoUpdate = false
  mesh.matrix.copy(matrixOf(item.pose))
  return mesh
}

function plainGeometry(geometry: BufferGeometry): BufferGeometry {
  const flat = geometry.index === null ? geometry : geometry.toNonIndexed()
  flat.deleteAttribute('uv')
  return flat
}

function matrixOf({ turn, shift }: SceneItem['pose']): Matrix4 {
  const [a, b, c] = turn
  return new Matrix4().set(
    a[0],
    a[1],
    a[2],
    shift[0],
    b[0],
    b[1],
    b[2],
    shift[1],
    c[0],
    c[1],
    c[2],
    shift[2],
    0,
    0,
    0,
    1,
  )
}

function dress(mesh: Mesh, picked: boolean): void {
  ;(mesh.material as MeshLambertMaterial).color.set(picked ? colour('--edit') : (mesh.userData.shade as number))
}

/** Each part where it stands at this place along the order; pieces that have left are not drawn. */
function moveParts(scene: Scene, parts: ReadonlyMap<string, Mesh>, at: number): void {
  const as = new Map<string, { pose: Matrix4; gone: boolean }>()
  scene.steps.forEach((step, index) => {
    if (at <= index) return
    const share = Math.min(1, at - index)
    for (const part of step.parts) as.set(part, { pose: alongPoses(step, share), gone: share >= 1 && !step.stays })
  })
  for (const item of scene.items) {
    const mesh = parts.get(item.id) as Mesh
    const state = as.get(item.id)
    mesh.visible = state?.gone !== true
    mesh.matrix.copy(matrixOf(item.pose))
    if (state !== undefined) mesh.matrix.premultiply(state.pose)
    mesh.matrixWorldNeedsUpdate = true
  }
}

function alongPoses(step: SceneStep, share: number): Matrix4 {
  const last = step.poses.length - 1
  if (last < 1) return step.poses[0] === undefined ? new Matrix4() : matrixOf(step.poses[0])
  const leg = Math.min(last - 1, Math.floor(share * last))
  const t = share * last - leg
  const [a, b] = [step.poses[leg], step.poses[leg + 1]]
  if (a === undefined || b === undefined) return new Matrix4()
  const shift = a.shift.map((x, i) => x + ((b.shift[i] as number) - x) * t) as [number, number, number]
  return matrixOf({ turn: t < 1 ? a.turn : b.turn, shift })
}

/** Half of the shaft wall behind the machine, slab, cradle, layers as bands on a cut face, bays and fixed things. */
function surroundings(scene: Scene): Group {
  const group = new Group()
  const { shaft } = scene
  if (shaft !== undefined)
    group.add(halfWall(shaft), slab(shaft), ...scene.layers.map((l, i) => layerBand(l, i, shaft.radius)))
  const bays = scene.bays.map((b) =>
    outlined(new BoxGeometry(b.size[0], b.size[1], 0.3).translate(b.centre[0], b.centre[1], b.level - 0.15), 0xd8d5ca),
  )
  const obstructions = scene.obstructions.map((o) =>
    outlined(
      new BoxGeometry(o.x[1] - o.x[0], o.y[1] - o.y[0], o.z[1] - o.z[0]).translate(
        (o.x[0] + o.x[1]) / 2,
        (o.y[0] + o.y[1]) / 2,
        (o.z[0] + o.z[1]) / 2,
      ),
      0x6c706a,
      0.25,
    ),
  )
  for (const thing of [...bays, ...obstructions]) group.add(thing)
  return group
}

type Shaft = NonNullable<Scene['shaft']>

function halfWall({ radius, top, slab: floor }: Shaft): Mesh {
  const wall = new CylinderGeometry(radius, radius, top - floor, 64, 1, true, Math.PI / 2, Math.PI)
    .rotateX(Math.PI / 2)
    .translate(0, 0, (top + floor) / 2)
  return new Mesh(wall, new MeshLambertMaterial({ color: 0xe4e1d6, side: DoubleSide }))
}

function slab({ radius, slab: floor }: Shaft): Mesh {
  const disc = new CylinderGeometry(radius, radius, 0.4, 64).rotateX(Math.PI / 2).translate(0, 0, floor - 0.2)
  return new Mesh(disc, new MeshLambertMaterial({ color: 0xb4b1a6 }))
}

const BAND_WIDTH = 9
const BANDS = [0xeeeade, 0xd9d5c6, 0xe6e0cb, 0xc9c5b6, 0xdcd3b8, 0xbfbcae, 0xd2cbb4]

function layerBand(layer: { top: number; bottom: number }, index: number, radius: number): Group {
  const both = new Group()
  for (const side of [-1, 1]) {
    const box = new BoxGeometry(BAND_WIDTH, 0.4, layer.top - layer.bottom).translate(
      side * (radius + 1.5 + BAND_WIDTH / 2),
      radius * 0.1,
      (layer.top + layer.bottom) / 2,
    )
    both.add(outlined(box, BANDS[index % BANDS.length] as number))
  }
  return both
}

function outlined(geometry: BufferGeometry, shade: number, opacity = 1): Group {
  const group = new Group()
  group.add(new Mesh(geometry, new MeshLambertMaterial({ color: shade, transparent: opacity < 1, opacity })))
  group.add(new LineSegments(new EdgesGeometry(geometry), new LineBasicMaterial({ color: 0x84827a })))
  return group
}

function picker(
  canvas: HTMLCanvasElement,
  camera: PerspectiveCamera,
  meshes: Mesh[],
  onPick: (id: string | undefined) => void,
): (event: PointerEvent) => void {
  const ray = new Raycaster()
  let down = { x: 0, y: 0 }
  canvas.addEventListener('pointerdown', (event) => {
    down = { x: event.clientX, y: event.clientY }
  })
  const pick = (event: PointerEvent): void => {
    if (Math.hypot(event.clientX - down.x, event.clientY - down.y) > 4) return
    const box = canvas.getBoundingClientRect()
    ray.setFromCamera(
      new Vector2(((event.clientX - box.left) / box.width) * 2 - 1, 1 - ((event.clientY - box.top) / box.height) * 2),
      camera,
    )
    onPick(ray.intersectObjects(meshes.filter((m) => m.visible))[0]?.object.userData.id as string | undefined)
  }
  canvas.addEventListener('pointerup', pick)
  return pick
}
