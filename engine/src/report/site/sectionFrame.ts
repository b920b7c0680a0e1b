import type { Frame2 } from '../outline/convex.ts'
import { wallRadius } from '../views/shaft.ts'
import { crossingsOf } from './crossings.ts'
import { planOf } from './planFrame.ts'
import type { SiteSubject } from './subject.ts'

const UNDER = 6
const OVER = 4
/** Over the head of a tower: its header is drawn there, and its name stands above. */
const OVER_HEAD = 6
const BESIDE = 2
/** Lines that cross the section within this of the shaft's centre are taken into it, m. */
const NEAR = 22

/** Levels that both sections show: from under the toe of the wall to over the lifting machine. */
export function levelsShown({ stages }: SiteSubject): { bottom: number; top: number } {
  const { shaft, ground, systems, machine } = stages.model.project
  const lows = [
    ...(shaft === undefined
      ? []
      : [(shaft.wall.toe.value as number) - UNDER, (shaft.excavation.value as number) - UNDER]),
    ...(shaft !== undefined || ground === undefined
      ? []
      : Object.values(ground.layers).map((l) => l.bottom.value as number)),
    ...(shaft === undefined && machine !== undefined ? [(machine.pose.origin[2]?.value ?? 0) - UNDER] : []),
  ]
  const heads = Object.values(systems)
    .filter((s) => s.rails !== undefined)
    .flatMap((s) => Object.values(s.hooks).flatMap((h) => [h.head?.value ?? 0, h.highest?.value ?? 0]))
  return { bottom: Math.min(-UNDER, ...lows), top: Math.max(OVER, ...heads.map((z) => z + OVER_HEAD)) }
}

/** The section along the drive, x across. */
export function alongFrame(subject: SiteSubject): Frame2 {
  const { shaft, ground, systems } = subject.stages.model.project
  const xs = [
    ...(shaft === undefined ? [10] : [wallRadius(shaft) + 8]),
    ...Object.values(systems).flatMap((s) => (s.rails === undefined ? [] : planOf(s.rails))),
    ...(shaft === undefined ? [] : Object.values(ground?.treatments ?? {}).flatMap((t) => planOf(t.along))),
  ].map(Math.abs)
  const half = Math.max(...xs) + BESIDE
  return { left: -half, right: half, ...levelsShown(subject) }
}

/** The section across the drive, y to the left: as far as the bays that the plane cuts, and the runway. */
export function acrossFrame(subject: SiteSubject): Frame2 {
  const { shaft, bays, systems } = subject.stages.model.project
  const beside = shaft === undefined ? 10 : wallRadius(shaft) + 4
  const ys = [
    -beside,
    beside,
    ...Object.values(bays).flatMap((b) => {
      if (!isCut(b)) return []
      const [, y] = planOf(b.centre)
      const [, size] = planOf(b.size)
      return [y - size / 2 - BESIDE, y + size / 2 + BESIDE]
    }),
    ...Object.values(systems).flatMap((s) => (s.runway === undefined ? [] : planOf(s.runway))),
    ...crossingsOf(subject, 'y').flatMap(({ u }) => (Math.abs(u) < NEAR ? [-u - 2, -u + 2] : [])),
  ]
  return { left: -Math.max(...ys), right: -Math.min(...ys), ...levelsShown(subject) }
}

type Bay = SiteSubject['stages']['model']['project']['bays'][string]

/** Whether the plane across the drive through the shaft's centre meets a bay. */
export function isCut({ centre, size }: Bay): boolean {
  const [x] = planOf(centre)
  const [wide] = planOf(size)
  return Math.abs(x) <= wide / 2
}
