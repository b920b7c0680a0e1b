import type { Stages } from '@shieldwright/engine'
import { startDerivation } from '@shieldwright/engine'
import { idsMeant } from '@shieldwright/engine/model/index.ts'
import {
  cross,
  distance,
  inverse,
  norm,
  place,
  subtract,
  unit,
  type Vec3,
} from '@shieldwright/engine/numeric/vector.ts'
import { beforeAll, describe, expect, test } from 'vitest'
import { demoDocument } from '../../../engine/src/demo.fixture.ts'
import { batchOf } from './batch.ts'
import { type Box3, boxOf } from './bounds.ts'
import { type CardView, cardOf } from './card.ts'
import { type Clear, type ClearMoment, clearAt, leastOf, type StepClearances } from './clearance.ts'
import { clearancesOf } from './clearances.ts'
import { sceneCounts } from './counts.ts'
import { cutsOf } from './cuts.ts'
import { inkItems, inkKey } from './inking.ts'
import { itemsMeant } from './meant.ts'
import type { Palette } from './palette.ts'
import { boomAxis } from './posing.ts'
import { type Scene, sceneOf } from './scene.ts'
import type { Layer } from './sceneItem.ts'
import type { Shown3d } from './shown.ts'
import { shapePoints } from './solids.ts'
import { displaced, hangingAt, isThere, momentAt, parkedNow, poseOf, standOf, stopsOf } from './stand.ts'
import { poseAlong } from './way.ts'
import { whereWords } from './words.ts'

const derivation = startDerivation(demoDocument())
let stages: Stages
let scene: Scene
beforeAll(() => {
  stages = derivation.derived.stages as Stages
  scene = sceneOf(stages)
})

const itemOf = (id: string) => scene.items.find((i) => i.id === id) as Scene['items'][number]

function boxOfParts(parts: readonly string[], along: number): Box3 {
  const moment = momentAt(scene, along)
  return boxOf(
    parts.flatMap((id) => {
      const item = itemOf(id)
      const pose = poseOf(item, scene, moment)
      return item.solids.flatMap(shapePoints).map((p) => place(pose, p))
    }),
  )
}

test('every part of the machine is drawn once, and everything around it has an address of the project', () => {
  const machine = scene.items.filter((i) => i.layer === 'machine')
  expect(machine.map((i) => i.id).sort()).toEqual([...stages.model.instances.byId.keys()].sort())
  expect(new Set(scene.items.map((i) => i.id)).size).toBe(scene.items.length)
  const layers = ['ground', 'water', 'shaft', 'lifting', 'bays', 'obstructions']
  for (const layer of layers) expect(scene.items.some((i) => i.layer === layer)).toBe(true)
  expect(scene.labels.filter((l) => l.layer === 'ground' && l.text !== '').map((l) => l.text)).toEqual(
    Object.values(stages.model.project.ground?.layers ?? {}).map((l) => l.name),
  )
})

test('at the start all is as found, and at the end of the way back it is so again but for what is scrapped', () => {
  for (const along of [0, stopsOf(scene)])
    for (const item of scene.items.filter((i) => i.layer === 'machine' && i.scrapped !== true)) {
      const moved = displaced(item, scene, momentAt(scene, along))
      if (moved !== undefined) for (const k of [0, 1, 2] as const) expect(moved.shift[k]).toBeCloseTo(0, 6)
    }
})

test('after each step the pose is the one that the order was verified with, where no way over ground is joined to it', () => {
  let compared = 0
  scene.steps.forEach((step, k) => {
    const { planned, way } = step.passage
    if (planned[1] !== way.legs.length || planned[0] > 0) return
    const last = stages.strip.steps[k]?.poses.at(-1)
    const drawn = poseAlong(way, 1)
    for (const i of [0, 1, 2] as const) expect(drawn.shift[i]).toBeCloseTo(last?.shift[i] as number, 6)
    compared++
  })
  expect(compared).toBeGreaterThan(5)
})

test('a landed piece stands on its bay, and what is drawn and not planned is said', () => {
  const { bays } = stages.model.project
  let landed = 0
  scene.steps.forEach((step, k) => {
    const bay = bays[step.passage.bay ?? '']
    if (bay === undefined) return
    landed++
    const box = boxOfParts(step.parts, k + 1)
    const [cx, cy] = bay.centre.map((c) => c.value as number) as [number, number]
    const [w, l] = bay.size.map((c) => c.value as number) as [number, number]
    const tall = step.passage.drawn.some((words) => words.includes('on top'))
    expect(box.min[2]).toBeGreaterThan((bay.level.value as number) - 0.01)
    expect(box.min[2]).toBeLessThan((bay.level.value as number) + (tall ? 7 : 1))
    expect(Math.abs((box.min[0] + box.max[0]) / 2 - cx)).toBeLessThan(w / 2)
    expect(Math.abs((box.min[1] + box.max[1]) / 2 - cy)).toBeLessThan(l / 2)
    if (step.passage.way.legs.length > step.passage.planned[1]) expect(step.passage.drawn.length).toBeGreaterThan(0)
  })
  expect(landed).toBeGreaterThan(20)
})

test('a landed piece stays where it lies until it goes back', () => {
  const crown = scene.steps.findIndex((s) => s.piece === 'crown')
  const parts = scene.steps[crown]?.parts ?? []
  const there = boxOfParts(parts, crown + 1)
  for (const along of [crown + 3, 20, 30, 2 * scene.steps.length - crown - 1])
    for (const k of [0, 1, 2] as const) expect(boxOfParts(parts, along).min[k]).toBeCloseTo(there.min[k], 6)
})

test('the head with the drive is turned face down over its bay: its axis ends plumb', () => {
  const turn = scene.steps.findIndex((s) => s.step === 'S20-head-drive-turn')
  const axis = (along: number): Vec3 => {
    const { turn: t } = poseOf(itemOf('CH-HUB'), scene, momentAt(scene, along))
    return [t[0][0], t[1][0], t[2][0]]
  }
  expect(Math.abs(axis(turn)[2])).toBeLessThan(0.1)
  expect(axis(turn + 1)[2]).toBeCloseTo(-1, 2)
})

test('the tower stands over what it carries', () => {
  const out = scene.steps.findIndex((s) => s.step === 'S19-head-drive')
  const moment = momentAt(scene, out + 0.9)
  const hanging = hangingAt(scene, moment)
  const stands = standOf('LT1', scene, moment, hanging)
  const box = boxOfParts(scene.steps[out]?.parts ?? [], out + 0.9)
  expect(stands[1]).toBeGreaterThan(box.min[1])
  expect(stands[1]).toBeLessThan(box.max[1])
  expect(hanging?.hooks[0]?.at[2]).toBeGreaterThan(box.min[2])
})

test('the hook never rises over the highest it can reach, at the ends of each lift', () => {
  for (const [k, step] of scene.steps.entries()) {
    const system = stages.model.project.systems[step.rig?.system ?? '']
    const highest = system?.hooks[step.rig?.main.hook ?? '']?.highest?.value
    if (highest === undefined || step.passage.planned[1] === 0) continue
    const hook = hangingAt(scene, momentAt(scene, k + 0.999))?.hooks[0]
    if (hook !== undefined) expect(hook.at[2]).toBeLessThan(highest + 0.01)
  }
})

describe('the least clearance of the moment', () => {
  const sampled = (step: string) => {
    const k = scene.steps.findIndex((s) => s.step === step)
    return { k, ways: clearancesOf(stages, scene, k, derivation.memory) as StepClearances }
  }
  const SITE = /^(slab|barrier|ground|bay\/.*|leg\/.*|crane\/.*|stored\/.*|S\d\d-.*)$/
  const isOnSite = ({ near }: ClearMoment): boolean => near !== undefined && SITE.test(near.to)
  /** The least to wall, fixed things and parts, which the checks of the way have. */
  const least = (way: readonly ClearMoment[]) => leastOf(way.filter((m) => !isOnSite(m)))?.near as Clear
  const lifted = (lift: string) => stages.lift.lifts[lift]?.clearance

  test('is, where it is least, the gap of the lift’s own check, out and back', () => {
    const { ways } = sampled('S04-crown')
    for (const [way, lift] of [
      [ways.out, 'crown-out'],
      [ways.back, 'crown-back'],
    ] as const) {
      expect(least(way).gap).toBeCloseTo(lifted(lift)?.gap.value as number, 6)
      expect(least(way).to).toBe(lifted(lift)?.to)
    }
    // hung from other points it comes nearer on the way back
    expect(least(ways.back).gap).toBeLessThan(least(ways.out).gap)
  })

  test('is never less than the checks of the lift say of wall and fixed things, nor than the order says of parts', () => {
    let compared = 0
    for (const step of ['S05-upper-left', 'S19-head-drive']) {
      const { k, ways } = sampled(step)
      const own = stages.strip.steps[k]
      for (const [way, lift] of [
        [ways.out, own?.lift],
        [ways.back, stages.model.project.steps[step]?.back],
      ] as const)
        for (const { near } of way) {
          if (near === undefined || SITE.test(near.to)) continue
          const check = stages.checks.find((c) => c.id === `lift.path.clearance/${lift}/${near.to}`)
          const bound = check?.capacity.value ?? own?.clearances.find((c) => c.to === near.to && c.closing)?.gap
          expect(near.gap).toBeGreaterThan((bound as number) - 1e-6)
          compared++
        }
    }
    expect(compared).toBeGreaterThan(200)
  })

  test('is to a part, where it is least, what the verified order says, to its fiftieth', () => {
    for (const step of ['S05-upper-left', 'S19-head-drive', 'S21-man-lock']) {
      const { k, ways } = sampled(step)
      const clearance = stages.strip.steps[k]?.clearance
      expect(least(ways.out).to).toBe(clearance?.to)
      const gap = clearance?.gap as number
      expect(Math.abs(least(ways.out).gap - gap)).toBeLessThan(gap / 50 + 0.001)
    }
  })

  test('has its two points as far apart as it says, also between samples', () => {
    const { ways } = sampled('S19-head-drive')
    for (let share = 0.001; share < 1; share += 0.007) {
      const clear = clearAt(ways, { step: 18, share, homeward: false, out: 18 + share })
      if (clear !== undefined) expect(Math.abs(distance(...clear.ends) - clear.gap)).toBeLessThan(0.02)
    }
  })
})

test('while another lifts, and before it lifts at all, a machine is where the project has it parked', () => {
  const { CR1, LT1 } = stages.model.project.systems
  const at = CR1?.standings[CR1.parked?.standing ?? -1]?.map(({ value }) => value)
  const over = CR1?.parked?.over?.map(({ value }) => value)
  const crown = scene.steps.findIndex((s) => s.piece === 'crown')
  for (const moment of [momentAt(scene, 0), momentAt(scene, crown + 0.5)]) {
    const hanging = hangingAt(scene, moment)
    expect(standOf('CR1', scene, moment, hanging).slice(0, 2)).toEqual(at)
    const { head } = boomAxis(scene, 'CR1', moment, hanging)
    for (const k of [0, 1] as const) expect(head[k]).toBeCloseTo(over?.[k] as number, 3)
    expect(parkedNow('CR2', scene, moment, hanging)?.away).toBe(true)
  }
  const lock = momentAt(scene, scene.steps.findIndex((s) => s.step === 'S21-man-lock') + 0.5)
  const hanging = hangingAt(scene, lock)
  expect(parkedNow('CR1', scene, lock, hanging)).toBeUndefined()
  expect(standOf('CR1', scene, lock, hanging).slice(0, 2)).toEqual(hanging?.rig.standing)
  expect(standOf('LT1', scene, lock, hanging)[1]).toBe(LT1?.parked?.along?.value)
})

describe('the boom of a crane', () => {
  const under = (step: string, share: number, drawn = scene) => {
    const k = drawn.steps.findIndex((s) => s.step === step)
    const moment = momentAt(drawn, k + share)
    const hanging = hangingAt(drawn, moment)
    const system = hanging?.rig.system as string
    return { ...boomAxis(drawn, system, moment, hanging), system, hanging }
  }

  test('is drawn from its pin to plumb over the hook, as long as it is set up and as wide as its maker says', () => {
    for (const share of [0.1, 0.5, 0.9]) {
      const { foot, head, system, hanging } = under('S21-man-lock', share)
      const { boom, setUp } = stages.model.project.systems[system] as Stages['model']['project']['systems'][string]
      expect(distance(foot, head)).toBeCloseTo(setUp?.boom?.value as number, 6)
      expect(foot[2]).toBe(boom?.level?.value)
      const hook = hanging?.hooks[0]?.at as Vec3
      for (const k of [0, 1] as const) expect(head[k]).toBeCloseTo(hook[k], 3)
      const box = itemOf(`system/${system}/boom`).solids[0]
      expect(box).toMatchObject({ size: [1, boom?.width?.value, boom?.depth?.value] })
    }
  })

  test('that comes nearest is what the dimension of the moment is drawn to, with its check, which fails', () => {
    const document = demoDocument()
    // as deep as a house: half of it comes down on the block
    const { systems } = document as unknown as { systems: { CR1: { boom: { depth: string } } } }
    systems.CR1.boom.depth = '26 m'
    const thick = startDerivation(document)
    const read = thick.derived.stages as Stages
    const drawn = sceneOf(read)
    const k = drawn.steps.findIndex((s) => s.step === 'S21-man-lock')
    const { out } = clearancesOf(read, drawn, k, thick.memory) as StepClearances
    const struck = out.flatMap(({ near, share }) => (near?.to === 'boom' && near.gap < 0 ? [{ near, share }] : []))
    expect(struck.length).toBeGreaterThan(0)
    for (const { near, share } of struck) {
      expect(near.short).toBe(true)
      expect(near.check).toBe(`lift.path.boom/${drawn.steps[k]?.lift}`)
      const { foot, head } = under('S21-man-lock', share, drawn)
      const axis = unit(subtract(head, foot))
      // inside the boom by less than the half of it that stands over its axis
      expect(norm(cross(subtract(near.ends[0], foot), axis))).toBeLessThan(13.1)
    }
  })
})

test('legs and spreaders are drawn as their check has them hang: from the spreader to the piece, under a hook over its weight', () => {
  const k = scene.steps.findIndex((s) => s.step === 'S19-head-drive')
  const moment = momentAt(scene, k + 0.4)
  const step = scene.steps[k] as Scene['steps'][number]
  const { hooks } = hangingAt(scene, moment) as NonNullable<ReturnType<typeof hangingAt>>
  const [hook] = hooks
  const cog = place(poseAlong(step.passage.way, 0.4), step.cog)
  // of the mass that the lift carries, with what is retained, which lies some mm beside that of the parts
  for (const i of [0, 1] as const) expect(hook?.at[i]).toBeCloseTo(cog[i], 1)
  expect(hook?.spreaders.length).toBe(1)
  for (const top of hook?.tops ?? []) expect(top[2]).toBeGreaterThan(cog[2])
})

test('over ground a piece is near what is under it and beside it, by its name, and touches its bay where it is set down', () => {
  const k = scene.steps.findIndex((s) => s.step === 'S21-man-lock')
  const { out } = clearancesOf(stages, scene, k, derivation.memory) as StepClearances
  const names = new Set(out.map(({ near }) => near?.name))
  for (const name of ['Crawler crane', 'barrier around the shaft', 'Drive motor 10']) expect(names).toContain(name)
  // away while the other lifts
  expect(names).not.toContain('Mobile crane')
  const last = out.at(-1)?.near as Clear
  expect(last.gap).toBeCloseTo(0, 3)
  expect(last.name).toMatch(/^Bay /)
  // between the order's moves and the bay nothing is left unmeasured
  expect(out.every(({ near }) => near !== undefined)).toBe(true)
})

test('the services of a cut are those that its step parts; those of a joint run from one side to the other', () => {
  const step = scene.cuts.find((c) => c.pointer === '/steps/S04-crown')
  const parted = stages.strip.steps.find((s) => s.step === 'S04-crown')?.services
  expect(step?.services.map((s) => s.id)).toEqual(parted)
  let crossing = 0
  for (const cut of scene.cuts.filter((c) => c.kind === 'joint')) {
    const joint = stages.model.project.joints[cut.pointer.split('/')[2] as string]
    const sides = (joint?.between ?? []).map((side) => new Set(idsMeant(stages.model.instances, side)))
    for (const { id } of cut.services) {
      const { from, to } = stages.model.project.services[id] as { from: string; to: string }
      const on = [from, to].map((end) =>
        sides.findIndex((side) => idsMeant(stages.model.instances, end).some((i) => side.has(i))),
      )
      expect(on.sort()).toEqual([0, 1])
      crossing++
    }
  }
  expect(crossing).toBeGreaterThan(0)
})

test('moments with the same ink key are inked alike: a piece on its way is inked once', () => {
  const batch = batchOf(scene.items)
  const palette: Palette = {
    sheet: [1, 1, 1],
    ink: [0, 0, 0],
    edit: [0, 0, 1],
    fail: [1, 0, 0],
    dark: false,
    grey: (k) => [k, k, k],
  }
  const shown = { selected: undefined, hidden: new Set<Layer>(), through: false, ghost: false } as unknown as Shown3d
  const inksAt = (along: number): { key: string; inks: string } => {
    const moment = momentAt(scene, along)
    inkItems(scene, batch, { shown, moment, palette, before: new Set(), thinGround: false })
    const inks = batch.ranges.map((_, i) => batch.rows.slice(i * 20 + 12, i * 20 + 20).join(' ')).join('\n')
    return { key: inkKey(moment), inks }
  }
  const seen = new Map<string, string>()
  for (let along = 0; along <= stopsOf(scene); along += 0.25) {
    const { key, inks } = inksAt(along)
    expect(seen.get(key) ?? inks).toBe(inks)
    seen.set(key, inks)
  }
  // at every stop and on the way to the next one: fewer than there were moments, and not one for all
  expect(seen.size).toBeLessThan(2 * stopsOf(scene) + 2)
  expect(new Set(seen.values()).size).toBeGreaterThan(scene.steps.length / 2)
})

test('a service is open until its register says that it was parted, and then that it was joined', () => {
  const document = demoDocument()
  const [a, b, c] = (stages.strip.steps.find((s) => s.step === 'S04-crown')?.services ?? []) as [string, string, string]
  const signed = { by: 'fitter', on: '2032-10-20' }
  Object.assign(document.services[a] as object, { parted: signed })
  Object.assign(document.services[b] as object, { parted: signed, joined: { ...signed, on: '2032-10-21' } })
  const read = startDerivation(document).derived.stages as Stages
  const states = new Map(
    cutsOf(read)
      .find((cut) => cut.pointer === '/steps/S04-crown')
      ?.services.map((s) => [s.id, s.state]),
  )
  expect([a, b, c].map((id) => states.get(id))).toEqual(['disconnected', 'reconnected', 'open'])
})

test('a piece, a lift and a step all mean the parts that move', () => {
  const parts = itemsMeant(scene, '/pieces/crown').map((i) => scene.items[i]?.id)
  expect(parts).toEqual(expect.arrayContaining([...(scene.pieces.crown?.parts ?? [])]))
  expect(itemsMeant(scene, '/lifts/crown-out')).toEqual(itemsMeant(scene, '/pieces/crown'))
  expect(itemsMeant(scene, '/steps/S04-crown')).toEqual(itemsMeant(scene, '/pieces/crown'))
  expect(itemsMeant(scene, '/parts/MD-MOT').length).toBeGreaterThan(10)
  expect(itemsMeant(scene, '/parts/no-such')).toEqual([])
})

test('the card of a part has its mass with basis, and of a piece what stands in its way', () => {
  const card = (pointer: string, along: number): CardView => cardOf(derivation, scene, pointer, along) as CardView
  const hub = card('/parts/CH-HUB', 0)
  expect(hub.facts[0]?.value).toBe(stages.mass.parts['CH-HUB']?.mass.value)
  expect(hub.facts[0]?.words).toBe(stages.mass.parts['CH-HUB']?.basis)
  const before = card('/pieces/head-drive', 0)
  expect(before.blockers.length).toBeGreaterThan(0)
  expect(card('/pieces/head-drive', 18).blockers).toEqual([])
  expect(card('/lifts/crown-out', 4).links.map((l) => l.item)).toContain('crown-out')
  expect(cardOf(derivation, scene, '/bays/none', 0)).toBeUndefined()
})

test('words along the order change only from step to step', () => {
  expect(whereWords(scene, 0)).toBe('as found')
  expect(whereWords(scene, 3.2)).toBe(whereWords(scene, 3.7))
  expect(whereWords(scene, 3.2)).not.toBe(whereWords(scene, 4.2))
  expect(whereWords(scene, stopsOf(scene))).toBe('all back')
})

test('whatever the scene holds, it is drawn in at most five calls', () => {
  const counts = sceneCounts(scene)
  expect(counts.drawsMost).toBeLessThanOrEqual(5)
  expect(counts.items).toBe(scene.items.length)
  expect(counts.triangles).toBeLessThan(40_000)
})

test('what is fixed in the shaft stands until the step that it is removed before', () => {
  const item = { ...itemOf('obstruction/OB-VNT'), until: 4 }
  expect([0, 4, 4.5, 30, 59].map((along) => isThere(item, momentAt(scene, along)))).toEqual([
    true,
    true,
    false,
    false,
    false,
  ])
})

test('poses have inverses: a part taken out and put back by its own pose is where it was', () => {
  const item = itemOf('CH-HUB')
  const moved = poseOf(item, scene, momentAt(scene, 20))
  expect(place(inverse(moved), place(moved, [1, 2, 3]))[0]).toBeCloseTo(1, 9)
})
