import type { Given } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Problem } from '../working/problem.ts'
import { showQuantity } from '../working/quantity.ts'
import type { Bay, Cradle, Ground, ReadProject, Shaft } from './schema/project.ts'
import { wallRadius } from './wallRadius.ts'

/** Levels of the shaft, layers of the ground, water, and bays that stand on the shaft. */
export function siteProblems(project: ReadProject): Problem[] {
  const { shaft, ground, cradle } = project
  return [
    ...(shaft === undefined ? [] : shaftProblems(shaft)),
    ...(cradle === undefined ? [] : [...rising('/cradle/along', cradle.along), ...jackProblems(cradle)]),
    ...(ground === undefined
      ? []
      : [
          ...layerProblems(ground),
          ...frictionProblems(ground),
          ...waterProblems(ground),
          ...levelProblems(ground),
          ...rangeProblems(ground),
        ]),
    ...(shaft === undefined ? [] : Object.entries(project.bays).flatMap(([id, b]) => bayProblems(id, b, shaft))),
  ]
}

const n = (input: Given): number => input.value as number
const metres = (value: number): string => `${Number(value.toPrecision(6))} m`

/** What stands at a pointer must lie below something else. */
function below(lower: Given, upper: Given, what: string): Problem[] {
  return n(lower) < n(upper)
    ? []
    : [{ pointer: lower.pointer, found: metres(n(lower)), expected: `below ${what} at ${metres(n(upper))}` }]
}

/** Fill lies on the slab. */
const onSlab = (top: Given, slab: Given): Problem[] =>
  n(top) > n(slab)
    ? []
    : [{ pointer: top.pointer, found: metres(n(top)), expected: `above the slab at ${metres(n(slab))}` }]

function rising(pointer: string, [from, to]: readonly [Given, Given]): Problem[] {
  return n(from) < n(to)
    ? []
    : [
        {
          pointer,
          found: `from ${metres(n(from))} to ${metres(n(to))}`,
          expected: 'a span from the lesser to the greater',
        },
      ]
}

/** Three points that are not in one line hold a body; fewer do not. */
function jackProblems({ jacking }: Cradle): Problem[] {
  if (jacking === undefined) return []
  const points = Object.values(jacking.points).map(({ at: [x, y] }): [number, number] => [n(x), n(y)])
  const [[x, y] = [0, 0], [u, v] = [0, 0]] = points
  const off = points.map(([a, b]) => Math.abs((a - x) * (v - y) - (b - y) * (u - x)))
  if (points.length >= 3 && Math.max(...off) > 1e-6) return []
  const found = points.length < 3 ? `${points.length} points` : `${points.length} points in one line`
  const example = '{ at: ["-4 m", "2 m"] }, { at: ["-4 m", "-2 m"] }, { at: ["3 m", "0 m"] }'
  return [
    { pointer: '/cradle/jacking/points', found, expected: 'three or more points that are not in one line', example },
  ]
}

function shaftProblems(shaft: Shaft): Problem[] {
  return [
    ...below(shaft.slabTop, shaft.collar, 'the collar'),
    ...below(shaft.excavation, shaft.slabTop, 'the top of the slab'),
    ...below(shaft.wall.toe, shaft.excavation, 'the excavation'),
    ...shaft.stages.flatMap(({ to }) => below(to, shaft.collar, 'the collar')),
    ...(shaft.fill?.stops ?? []).flatMap(({ top }) => onSlab(top, shaft.slabTop)),
    ...Object.values(shaft.wall.asBuilt).flatMap((element) => surveyProblems(element, shaft)),
    ...Object.entries(shaft.obstructions).flatMap(([id, o]) =>
      (['x', 'y', 'z'] as const).flatMap((axis) => rising(pointerOf('shaft', 'obstructions', id, axis), o[axis])),
    ),
  ]
}

/** The points of a pile or panel, each below the one before it, from the collar to no deeper than the toe. */
function surveyProblems(
  { between, lowAt }: Shaft['wall']['asBuilt'][string],
  { collar, wall: { toe } }: Shaft,
): Problem[] {
  const levels = [...between.map(({ z }) => z), lowAt]
  const order = levels.flatMap((level, i) => {
    const above = levels[i - 1]
    return above === undefined
      ? below(level, collar, 'the collar')
      : below(level, above, 'the point surveyed before it')
  })
  const beyond = levels
    .filter((level) => n(level) < n(toe) - SAME_LEVEL)
    .map((level) => ({
      pointer: level.pointer,
      found: metres(n(level)),
      expected: `no deeper than the toe at ${metres(n(toe))}`,
    }))
  return [...order, ...beyond]
}

/** Levels are surveyed to centimetres: nearer than this they are the same. */
const SAME_LEVEL = 0.001

function layerProblems({ surface, layers }: Ground): Problem[] {
  const fromTop = Object.entries(layers).sort(([, a], [, b]) => n(b.top) - n(a.top))
  return fromTop.flatMap(([, layer], i) => {
    const [aboveId, above] = fromTop[i - 1] ?? ['', undefined]
    const meets = above?.bottom ?? surface
    const what = above === undefined ? 'the surface' : `the bottom of "${aboveId}"`
    return [...below(layer.bottom, layer.top, 'its top'), ...meeting(layer.top, meets, what)]
  })
}

function meeting(top: Given, meets: Given, what: string): Problem[] {
  const gap = n(meets) - n(top)
  if (Math.abs(gap) <= SAME_LEVEL) return []
  const found = `${metres(n(top))}: ${metres(Math.abs(gap))} ${gap > 0 ? 'of ground left out' : 'of ground twice'}`
  return [{ pointer: top.pointer, found, expected: `the level of ${what}, ${metres(n(meets))}` }]
}

/** Beyond this no soil is tested, dense crushed rock included (common practice, no source); mostly a slip of the unit. */
const STEEPEST_FRICTION = 55

function frictionProblems({ layers }: Ground): Problem[] {
  return Object.entries(layers).flatMap(([id, { phi }]) => {
    const degrees = phi === undefined ? 0 : (n(phi) * 180) / Math.PI
    if (degrees >= 0 && degrees <= STEEPEST_FRICTION) return []
    const found = `${Number(degrees.toPrecision(6))} deg`
    return [
      {
        pointer: pointerOf('ground', 'layers', id, 'phi'),
        found,
        expected: `a friction angle of soil, from 0 deg to ${STEEPEST_FRICTION} deg`,
        example: '32 deg',
      },
    ]
  })
}

function waterProblems(ground: Ground): Problem[] {
  return Object.entries(ground.water).flatMap(([id, w]) => [
    ...aboveGround(ground, w),
    ...sharedLayers(ground, id, w),
    ...(w.drawnDown === undefined ? [] : below(w.drawnDown, w.head, 'the head before')),
    ...(w.wells !== undefined && w.wells.needed > w.wells.installed
      ? [
          {
            pointer: `/ground/water/${id}/wells/needed`,
            found: String(w.wells.needed),
            expected: `at most the ${w.wells.installed} installed`,
          },
        ]
      : []),
  ])
}

/** A layer holds one water: of two heads nobody could say which presses. */
function sharedLayers({ water }: Ground, id: string, { layers }: Ground['water'][string]): Problem[] {
  const all = Object.entries(water)
  const before = all.slice(
    0,
    all.findIndex(([other]) => other === id),
  )
  return layers.flatMap((layer, i) => {
    const holder = layers.indexOf(layer) < i ? id : before.find(([, w]) => w.layers.includes(layer))?.[0]
    if (holder === undefined) return []
    return [
      {
        pointer: pointerOf('ground', 'water', id, 'layers', i),
        found: `layer "${layer}", which water "${holder}" holds already`,
        expected:
          'a layer that no other water holds: one head for each layer; the higher of two where both are possible, or the layer divided where they part',
      },
    ]
  })
}

/** The best estimate stands between the lowest and the highest, and there is one. */
function rangeProblems({ layers, water }: Ground): Problem[] {
  const all = [...Object.values(layers), ...Object.values(water)]
  return all.flatMap((of) =>
    Object.entries(of.range ?? {}).flatMap(([field, ends]) => {
      const best = of[field as keyof typeof of] as Given | undefined
      const [low, high] = ends as readonly [Given, Given]
      if (best !== undefined && n(low) <= n(best) && n(best) <= n(high) && n(low) < n(high)) return []
      const shown = [low, high].map((end) => showQuantity(n(end), end.unit)).join(' to ')
      const found = best === undefined ? `${shown}, and no best estimate` : shown
      const expected = `lowest and highest about the best estimate${best === undefined ? ` under "${field}"` : `, ${showQuantity(n(best), best.unit)}`}`
      return [{ pointer: low.pointer.replace(/\/0$/, ''), found, expected }]
    }),
  )
}

/** Alert, action and alarm follow one another, up or down: else none of them can be told from the reading. */
function levelProblems({ instruments }: Ground): Problem[] {
  return Object.entries(instruments).flatMap(([id, { alert, action, alarm }]) => {
    const isRising = n(alert) < n(action) && n(action) < n(alarm)
    const isFalling = n(alert) > n(action) && n(action) > n(alarm)
    if (isRising || isFalling) return []
    const found = `alert, action and alarm at ${[alert, action, alarm].map((l) => showQuantity(n(l), l.unit)).join(', ')}`
    const expected = 'levels that rise from alert to alarm, or fall'
    return [{ pointer: pointerOf('ground', 'instruments', id), found, expected, example: '6 mm, 10 mm, 14 mm' }]
  })
}

/** Confined water may rise above the ground; water of the top layer would stand on it, tide included. */
function aboveGround({ surface, layers }: Ground, { layers: holds, head, tide }: Ground['water'][string]): Problem[] {
  const isOpen = holds.some((id) => Math.abs(n(surface) - (layers[id] ? n(layers[id].top) : Infinity)) <= SAME_LEVEL)
  const highest = n(head) + (tide?.value ?? 0)
  if (!isOpen || highest <= n(surface)) return []
  const expected = `at most the surface at ${metres(n(surface))}, for the top layer holds it`
  return [{ pointer: head.pointer, found: `water up to ${metres(highest)}`, expected }]
}

/** A bay whose rectangle reaches over the shaft or its wall would carry its piece on nothing. */
function bayProblems(id: string, bay: Bay, shaft: Shaft): Problem[] {
  const outside = [0, 1].map((i) => Math.max(0, Math.abs(n(bay.centre[i as 0])) - n(bay.size[i as 0]) / 2))
  const distance = Math.hypot(...outside)
  const needed = wallRadius(shaft)
  if (distance >= needed) return []
  const found = `a bay that comes to ${metres(distance)} of the shaft's axis`
  return [{ pointer: `/bays/${id}/centre`, found, expected: `clear of shaft and wall, ${metres(needed)} or more` }]
}
