import { bayPressing, edgeSlope, edgesOf, type Pressing, pressingAt, settlementAt } from '../../ground/index.ts'
import type { Bay, Ground, Utility } from '../../model/index.ts'
import { showQuantity } from '../../working/quantity.ts'
import type { Point2 } from '../outline/convex.ts'
import { type Column, headingRow, type Row, type TableRow, tableRows } from '../paper/rows.ts'
import { wallRadius } from '../views/shaft.ts'
import { planFrame, planOf } from './planFrame.ts'
import type { SiteSubject } from './subject.ts'
import { MOMENTS } from './troughLines.ts'

/** Settlement of one place at the step shown, at the worse of its two moments, m. */
export interface PlaceSettled {
  name: string
  /** From what stands on it; undefined where nothing can. */
  own?: number | undefined
  beside?: number | undefined
  together: number | undefined
  limit?: number | undefined
  /** Slope that what stands beside it gives it, rad, and what its work allows. */
  slope?: number | undefined
  tilt?: number | undefined
  says: string
}

const BEARINGS = 24
const APART = 2

type Moments = readonly (readonly Pressing[])[]

/** Bays, feet, the edge of the shaft and neighbours that are watched for settlement, in this order. */
export function placesSettled(subject: SiteSubject, ground: Ground): PlaceSettled[] {
  const { model } = subject.stages
  const moments = MOMENTS.map((when) => pressingAt(model, subject.step?.loads ?? [], when))
  return [
    ...Object.entries(model.project.bays).map(([id, bay]) => bayAt(ground, moments, id, bay)),
    ...feetAt(subject, ground, moments),
    ...edgeAt(subject, ground, moments),
    ...Object.entries(model.project.utilities).flatMap(([id, u]) => neighbourAt(subject, ground, moments, id, u)),
  ]
}

/** The worse of the two moments; unknown where one is. */
function worse(values: readonly (number | undefined)[]): number | undefined {
  return values.includes(undefined) ? undefined : Math.max(...(values as number[]))
}

function bayAt(ground: Ground, moments: Moments, id: string, bay: Bay): PlaceSettled {
  const place = bayPressing(id, bay)
  const on =
    (some: (p: Pressing) => boolean, at: Point2 = place.at) =>
    (all: readonly Pressing[]) =>
      settlementAt(ground, all.filter(some), { at, level: place.level })
  const all = moments.map(on(() => true))
  const worst = all.includes(undefined) ? 0 : all.indexOf(worse(all))
  const then = moments[worst] as readonly Pressing[]
  const others = (p: Pressing): boolean => p.id !== id
  const [a, b] = planOf(bay.size)
  const edges = edgesOf(bay).map((at) => on(others, at)(then))
  const [w_1, w_2, w_3, w_4] = edges as [number, number, number, number]
  return {
    name: bay.name ?? `Bay ${id}`,
    own: on((p) => p.id === id)(then),
    beside: on(others)(then),
    together: all[worst],
    limit: bay.settlement?.value,
    slope: edges.includes(undefined) ? undefined : edgeSlope.value({ w_1, w_2, w_3, w_4, a, b }),
    tilt: bay.tilt?.value,
    says: '',
  }
}

/** Each foot, and by how much two of one machine differ. */
function feetAt({ stages, units }: SiteSubject, ground: Ground, moments: Moments): PlaceSettled[] {
  const feet = moments.flat().filter((p) => p.forces.some(({ label }) => label.startsWith('leg ')))
  const ids = [...new Set(feet.map((p) => p.id))]
  const each = ids.map((id) => {
    const by = moments.map((all) => {
      const own = all.find((p) => p.id === id)
      return own === undefined ? 0 : settlementAt(ground, all, { at: own.at, level: own.level })
    })
    return { id, by }
  })
  const machines = [...new Set(ids.map((id) => id.split('/')[0] as string))]
  return machines.flatMap((machine): PlaceSettled[] => {
    const own = each.filter(({ id }) => id.startsWith(`${machine}/`))
    const differ = worse(
      moments.map((_, i) => {
        const ws = own.map(({ by }) => by[i])
        return ws.includes(undefined) ? undefined : Math.max(...(ws as number[])) - Math.min(...(ws as number[]))
      }),
    )
    const level = stages.model.project.systems[machine]?.level?.limit.value
    return [
      ...own.map(({ id, by }): PlaceSettled => ({ name: `Foot ${id}`, together: worse(by), says: '' })),
      {
        name: `Feet of ${machine}, most apart`,
        together: differ,
        limit: level,
        says:
          level === undefined
            ? ''
            : `of ${showQuantity(level, 'm', units)} by which its runway may be out of level, all causes together`,
      },
    ]
  })
}

/** The ground at the outside of the wall, at the bearing where it settles most. */
function edgeAt({ stages }: SiteSubject, ground: Ground, moments: Moments): PlaceSettled[] {
  const { shaft } = stages.model.project
  if (shaft === undefined) return []
  const radius = wallRadius(shaft)
  const level = ground.surface.value as number
  const around = Array.from({ length: BEARINGS }, (_, i) => (2 * Math.PI * i) / BEARINGS).map((angle) => ({
    angle,
    w: worse(
      moments.map((all) =>
        settlementAt(ground, all, { at: [radius * Math.cos(angle), radius * Math.sin(angle)], level }),
      ),
    ),
  }))
  const unknown = around.find(({ w }) => w === undefined)
  const most = unknown ?? around.reduce((a, b) => ((b.w as number) > (a.w as number) ? b : a))
  return [
    {
      name: 'Ground at the edge of the shaft',
      together: most.w,
      says: `most at ${Math.round((most.angle * 180) / Math.PI)}° from the drive to its left; as though there were no shaft: the wall holds the ground up`,
    },
  ]
}

function neighbourAt(
  subject: SiteSubject,
  ground: Ground,
  moments: Moments,
  id: string,
  utility: Utility,
): PlaceSettled[] {
  const { settlement } = utility
  const points = stationsOf(subject, (utility.line ?? []).map(planOf))
  if (settlement === undefined || points.length === 0) return []
  const level = utility.axis?.value ?? (ground.surface.value as number)
  const { units } = subject
  const { alert, reading, on } = settlement
  return [
    {
      name: `${id} ${utility.what.split(',')[0]}`,
      together: worse(moments.flatMap((all) => points.map((at) => settlementAt(ground, all, { at, level })))),
      limit: alert.value,
      says: `${utility.axis === undefined ? 'at the ground' : 'at its axis'}; alert level${reading?.value === undefined ? '' : `, of all causes ${showQuantity(reading.value, 'm', units)} read${on === undefined ? '' : ` on ${on}`}`}`,
    },
  ]
}

/** Places along a line within the drawing. */
function stationsOf({ stages }: SiteSubject, points: readonly Point2[]): Point2[] {
  const frame = planFrame(stages.model)
  if (frame === undefined) return []
  return points.slice(1).flatMap((b, i) => {
    const a = points[i] as Point2
    const parts = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / APART))
    return Array.from(
      { length: parts + 1 },
      (_, k): Point2 => [a[0] + ((b[0] - a[0]) * k) / parts, a[1] + ((b[1] - a[1]) * k) / parts],
    ).filter(([x, y]) => x >= frame.left && x <= frame.right && y >= frame.bottom && y <= frame.top)
  })
}

const number = (title: string, share: number): Column => ({ title, share, align: 'end', tabular: true })

/** Settlement place by place at the step shown. */
export function troughTable(subject: SiteSubject, ground: Ground, width: number): Row[] {
  const { units, step } = subject
  const places = placesSettled(subject, ground)
  if (step === undefined || places.length === 0) return []
  const shown = (p: PlaceSettled, key: 'own' | 'beside' | 'together' | 'limit') =>
    key in p ? showQuantity(p[key], 'm', units) : '–'
  const rows = places.map((p): TableRow => {
    const isOver = p.limit !== undefined && p.together !== undefined && p.together > p.limit
    const isSteep = p.tilt !== undefined && p.slope !== undefined && p.slope > p.tilt
    const fails = { ink: 'fail', weight: 700 } as const
    return {
      cells: [
        p.name,
        shown(p, 'own'),
        shown(p, 'beside'),
        { words: shown(p, 'together'), ...(isOver ? fails : {}) },
        p.limit === undefined ? '–' : shown(p, 'limit'),
        'slope' in p ? { words: slopeText(p.slope, units), ...(isSteep ? fails : {}) } : '–',
        'slope' in p && p.tilt !== undefined ? slopeText(p.tilt, units) : '–',
      ],
      ...(p.says === '' ? {} : { under: p.says }),
    }
  })
  return [
    headingRow('Settlement place by place', width, step.step),
    ...tableRows(
      [
        { title: 'Place', share: 34 },
        number('by itself', 15),
        number('from beside', 15),
        number('together', 15),
        number('allowed', 14),
        number('slope from beside', 19),
        number('tilt allowed', 16),
      ],
      rows,
      width,
    ),
  ]
}

const slopeText = (slope: number | undefined, units: SiteSubject['units']): string =>
  slope === undefined ? 'open' : `${showQuantity(slope * 1000, '1', units)} ‰`
