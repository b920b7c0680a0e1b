import type { Batch } from './batch.ts'
import { itemsMeant } from './meant.ts'
import { mix, type Palette } from './palette.ts'
import type { Scene } from './scene.ts'
import type { Layer, SceneItem } from './sceneItem.ts'
import type { Shown3d } from './shown.ts'
import { isThere, type Moment } from './stand.ts'

/** How much is left of what is seen through: of its faces, and of its lines. */
const THIN = { face: 0.09, line: 0.3 } as const

/** How much of the ink of now a piece on its way has. */
const MOVING = 0.3

export interface Inking {
  shown: Shown3d
  moment: Moment
  palette: Palette
  /** Items that stand before what is looked at. */
  before: ReadonlySet<number>
  /** The ground and the wall hide what is looked at. */
  thinGround: boolean
}

/** Writes what each item looks like: in its grey, selected, wrong, seen through or not at all. */
export function inkItems(scene: Scene, batch: Batch, now: Inking): void {
  const { shown, moment, palette } = now
  const selected = new Set(itemsMeant(scene, shown.selected))
  const struck = new Set(moment.step === undefined || moment.share >= 1 ? [] : (scene.steps[moment.step]?.struck ?? []))
  const under =
    moment.step === undefined || moment.share <= 0 || moment.share >= 1 ? undefined : scene.steps[moment.step]
  const moving = new Set(under?.parts)
  scene.items.forEach((item, i) => {
    const seen = seenHow(item, i, now, selected)
    const own = selected.has(i) ? 'edit' : struck.has(item.id) ? 'fail' : undefined
    const moves = moving.has(item.id)
    const face = palette.grey(faceShade(item, palette))
    const line = palette.grey(item.lines)
    const tint = own === undefined ? undefined : palette[own]
    batch.setInk(
      i,
      tint === undefined ? (moves ? mix(face, palette.edit, MOVING) : face) : mix(face, tint, 0.72),
      seen === 'none' ? 0 : seen === 'thin' ? THIN.face : 1,
      tint === undefined ? line : mix(tint, palette.ink, 0.35),
      seen === 'none' ? 0 : seen === 'thin' ? (item.group === 'grain' ? 0 : THIN.line) : 1,
    )
  })
}

/** What of a moment the inks hang from: two moments with the same are inked alike, so that a piece on its way is inked once. */
export const inkKey = ({ step, share, homeward, out }: Moment): string =>
  [step, share <= 0 ? 'before' : share >= 1 ? 'after' : 'under way', homeward, Math.ceil(out)].join()

/** On dark paper light faces would shine: they keep closer to it. */
const faceShade = ({ shade }: SceneItem, { dark }: Palette): number => (dark ? 0.05 + shade * 0.62 : shade)

function seenHow(
  item: SceneItem,
  i: number,
  { shown, moment, before, thinGround }: Inking,
  selected: ReadonlySet<number>,
): 'none' | 'thin' | 'whole' {
  if (shown.hidden.has(item.layer) || !isThere(item, moment)) return 'none'
  if (item.rig?.part === 'reach' && !isReachAsked(item, shown)) return 'none'
  if (selected.has(i)) return 'whole'
  if (thinGround && isCover(item)) return 'thin'
  if (before.has(i)) return 'thin'
  if (shown.ghost && item.layer !== 'water' && !(shown.selected === undefined && item.layer !== 'machine'))
    return 'thin'
  return 'whole'
}

const isReachAsked = (item: SceneItem, { selected }: Shown3d): boolean => selected === item.pointer

/** What may hide the machine because it lies around it: ground, wall, barrier; not the floor. */
export const isCover = (item: SceneItem): boolean =>
  item.layer === 'ground' || (item.layer === 'shaft' && item.id !== 'slab' && item.id !== 'cradle' && item.id !== 'rim')

/** Layers in which something is drawn, in their order. */
export const layersDrawn = (scene: Scene): Layer[] => {
  const present = new Set(scene.items.map((i) => i.layer))
  if (scene.services.length > 0) present.add('services')
  return [...present]
}
