import type { Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import type { Patch } from '@shieldwright/engine/working/patch.ts'
import { readQuantity } from '@shieldwright/engine/working/quantity.ts'
import type { SiUnit } from '@shieldwright/engine/working/unit.ts'
import { LAYERS, type Layer } from './sceneItem.ts'
import type { Section } from './shown.ts'

/** A picture in numbers: from where one looks, and what is shown. */
export interface SavedView {
  name: string
  target: Vec3
  around: number
  up: number
  distance: number
  parallel: boolean
  hidden: readonly Layer[]
  through: boolean
  ghost: boolean
  section: Section | undefined
  selected: string | undefined
  along: number
}

/** A view as it stands in a project file. */
export interface WrittenView {
  name: string
  target: readonly string[]
  around: string
  up: string
  distance: string
  parallel?: boolean
  hidden?: readonly string[]
  through?: boolean
  ghost?: boolean
  section?: { axis: 'x' | 'y' | 'z'; at: string; flipped?: boolean }
  selected?: string
  along?: number
}

const AXES = ['x', 'y', 'z'] as const
const fixed = (x: number, unit: string): string => `${Number(x.toFixed(3))} ${unit}`
const degrees = (rad: number): string => fixed((rad * 180) / Math.PI, 'deg')

export const writtenView = (view: SavedView): WrittenView => ({
  name: view.name,
  target: view.target.map((x) => fixed(x, 'm')),
  around: degrees(view.around),
  up: degrees(view.up),
  distance: fixed(view.distance, 'm'),
  ...(view.parallel ? { parallel: true } : {}),
  hidden: view.hidden,
  ...(view.through ? { through: true } : {}),
  ...(view.ghost ? { ghost: true } : {}),
  ...(view.section === undefined
    ? {}
    : {
        section: {
          axis: AXES[view.section.axis],
          at: fixed(view.section.at, 'm'),
          flipped: view.section.flipped,
        },
      }),
  ...(view.selected === undefined ? {} : { selected: view.selected }),
  along: Number(view.along.toFixed(3)),
})

/** A view as the file has it, which the model has read before: what it holds is sound. */
export function readView(written: WrittenView): SavedView {
  const { section, hidden = [] } = written
  return {
    name: written.name,
    target: written.target.map((x) => si(x, 'm')) as unknown as Vec3,
    around: si(written.around, 'rad'),
    up: si(written.up, 'rad'),
    distance: si(written.distance, 'm'),
    parallel: written.parallel === true,
    hidden: LAYERS.filter((layer) => hidden.includes(layer)),
    through: written.through === true,
    ghost: written.ghost === true,
    section:
      section === undefined
        ? undefined
        : {
            axis: AXES.indexOf(section.axis) as Section['axis'],
            at: si(section.at, 'm'),
            flipped: section.flipped === true,
          },
    selected: written.selected,
    along: written.along ?? 0,
  }
}

function si(text: string, unit: SiUnit): number {
  const value = readQuantity(text, unit)
  return typeof value === 'number' ? value : 0
}

type Views = Readonly<Record<string, WrittenView>>

/** The views of a project file. */
export const viewsIn = (document: unknown): Views => (document as { views?: Views }).views ?? {}

/** The edit that keeps a view under an id of its own, made from its name. */
export function keptView(document: unknown, view: SavedView): Patch {
  const views = viewsIn(document)
  const plain = view.name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 40)
  const base = plain === '' ? 'view' : plain
  let id = base
  for (let n = 2; id in views; n++) id = `${base}-${n}`
  const value = writtenView(view)
  return (document as { views?: Views }).views === undefined
    ? [{ op: 'add', path: '/views', value: { [id]: value } }]
    : [{ op: 'add', path: `/views/${id}`, value }]
}
