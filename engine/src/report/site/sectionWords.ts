import type { Shaft } from '../../model/index.ts'
import type { PaperBox } from '../drawing.ts'
import type { Label } from '../paper/labels.ts'
import { SMALL } from '../paper/pen.ts'
import { onPaper, type Placing } from '../paper/scale.ts'
import { lengthText, levelText } from '../sheet/figures.ts'
import { planOf } from './planFrame.ts'
import { THINGS_NAMED } from './planShaft.ts'
import type { SiteSubject } from './subject.ts'
import { boreRadius } from './tunnel.ts'

/** At smaller scales only what the section cannot be read without is named. */
const FACTS_NAMED = 600

const QUIET = { size: SMALL, ink: 'quiet', backed: true } as const

/** Words of a section along the drive: what the shaft is made of, bore and drive, treated ground, fixed things. */
export function sectionWords(subject: SiteSubject, shaft: Shaft, placing: Placing, window: PaperBox): Label[] {
  const isLarge = placing.scale <= FACTS_NAMED
  return [
    ...baseWords(subject, shaft, placing),
    ...(isLarge ? beamWords(subject, shaft, placing) : []),
    ...Object.values(shaft.eyes).map((eye) => eyeWords(subject, eye, placing, window)),
    ...(isLarge ? treatedWords(subject, shaft, placing) : []),
    ...(placing.scale > THINGS_NAMED ? [] : Object.values(shaft.obstructions).map((o) => thingWords(o, placing))),
  ]
}

function baseWords({ units, stages }: SiteSubject, shaft: Shaft, placing: Placing): Label[] {
  const { cradle } = stages.model.project
  const inner = (shaft.clearDiameter.value as number) / 2
  const [slab, thickness] = [shaft.slabTop.value as number, shaft.slabThickness.value as number]
  const barrier = shaft.barrier.value as number
  return [
    {
      ...QUIET,
      lines: [`base slab ${lengthText(thickness, units)}`],
      at: onPaper(placing, [0, slab - thickness / 2]),
      towards: -90,
      from: 0,
    },
    {
      ...QUIET,
      lines: [`barrier ${lengthText(barrier, units)}`],
      at: onPaper(placing, [-inner - 0.4, (shaft.collar.value as number) + barrier]),
      towards: 20,
      from: 0.6,
    },
    ...(cradle === undefined
      ? []
      : [
          {
            ...QUIET,
            lines: ['cradle'],
            at: onPaper(placing, [Math.max(...planOf(cradle.along)), slab + (cradle.thickness?.value ?? 0) / 2]),
            towards: 20,
            from: 0.6,
          },
        ]),
  ]
}

function beamWords({ units }: SiteSubject, shaft: Shaft, placing: Placing): Label[] {
  if (shaft.cappingBeam === undefined) return []
  const [width, depth] = [shaft.cappingBeam.width.value as number, shaft.cappingBeam.depth.value as number]
  const inner = (shaft.clearDiameter.value as number) / 2
  return [
    {
      ...QUIET,
      lines: ['capping beam', `${lengthText(width, units)} × ${lengthText(depth, units)}`],
      at: onPaper(placing, [inner, (shaft.collar.value as number) - depth]),
      towards: 210,
      from: 0.8,
    },
  ]
}

function eyeWords(subject: SiteSubject, eye: Shaft['eyes'][string], placing: Placing, window: PaperBox): Label {
  const { units } = subject
  const back = eye.side === '-x'
  const [radius, centre] = [boreRadius(subject, eye), eye.centre.value as number]
  return {
    ...QUIET,
    lines: [
      back ? 'bore behind' : 'drive to come',
      `Ø ${lengthText(2 * radius, units)}`,
      `axis ${levelText(centre, units)}`,
    ],
    at: [back ? window.left + 1 : window.right - 1, onPaper(placing, [0, centre + radius])[1] + 1.6],
    towards: back ? -45 : -135,
    from: 0.3,
  }
}

function treatedWords({ stages }: SiteSubject, shaft: Shaft, placing: Placing): Label[] {
  return Object.values(stages.model.project.ground?.treatments ?? {}).map((t) => {
    const [a, b] = planOf(t.along)
    const eye = t.eye === undefined ? undefined : shaft.eyes[t.eye]
    const half = (eye?.diameter.value ?? 0) / 2 + (t.cover?.value ?? 0)
    return {
      ...QUIET,
      lines: [t.what],
      at: onPaper(placing, [(a + b) / 2, (eye?.centre.value ?? 0) + half]),
      towards: 90,
      from: 0.5,
    }
  })
}

/** Under the top of a thing, m: its words stand there, or a little lower. */
const UNDER = [9, 13] as const

function thingWords({ what, x, z }: Shaft['obstructions'][string], placing: Placing): Label {
  const [a, b] = planOf(x)
  const top = Math.max(...planOf(z))
  const [first, second] = UNDER.map((d) => onPaper(placing, [(a + b) / 2, top - d]))
  return {
    ...QUIET,
    lines: [what.split(',')[0] as string],
    at: first as Label['at'],
    or: [second as Label['at']],
    towards: 0,
    from: 0.8,
  }
}
