import { existsSync } from 'node:fs'
import type { Check, Verdict } from './working/check.ts'

/** Three checks of one kind, made by the stage's own functions on the smallest inputs. */
export interface KindFixtures {
  pass: () => Check
  fail: () => Check
  open: () => Check
}

const stages = ['mass', 'strip', 'lift', 'ground', 'programme', 'risk', 'report'] as const

/** Every stage's fixtures by kind; a stage whose file is not there has none. */
export async function kindFixtures(): Promise<ReadonlyMap<string, KindFixtures>> {
  const files = stages
    .map((stage) => new URL(`./${stage}/${stage}.fixture.ts`, import.meta.url))
    .filter((f) => existsSync(f))
  const modules = await Promise.all(files.map((file) => import(file.href) as Promise<FixtureModule>))
  return new Map(modules.flatMap(({ fixtures = {} }) => Object.entries(fixtures)))
}

type FixtureModule = { fixtures?: Record<string, KindFixtures> }

const due: readonly (readonly [keyof KindFixtures, readonly Verdict[]])[] = [
  ['pass', ['pass', 'near']],
  ['fail', ['fail']],
  ['open', ['open']],
]

type Made = readonly (readonly [keyof KindFixtures, readonly Verdict[], Check])[]

/** Fixtures are made once: whole stages stand behind some of them. */
const madeBefore = new WeakMap<KindFixtures, Made>()

function madeOf(fixtures: KindFixtures): Made {
  const made = madeBefore.get(fixtures) ?? due.map(([name, verdicts]) => [name, verdicts, fixtures[name]()] as const)
  madeBefore.set(fixtures, made)
  return made
}

/** What keeps a kind from counting as computed; empty when its fixtures pass, fail and are open as they are named. */
export function fixtureFaults(kind: string, fixtures: KindFixtures | undefined): string[] {
  if (fixtures === undefined) return ['it has no fixtures']
  return madeOf(fixtures).flatMap(([name, verdicts, made]) => {
    const wrongKind = made.kind === kind ? [] : [`its "${name}" is a check of kind ${made.kind}`]
    return verdicts.includes(made.verdict) ? wrongKind : [...wrongKind, `its "${name}" comes out ${made.verdict}`]
  })
}

/** Ids of the kinds that are computed: all three fixtures come out as named. */
export async function provenKinds(): Promise<ReadonlySet<string>> {
  const all = await kindFixtures()
  return new Set(
    [...all].filter(([kind, fixtures]) => fixtureFaults(kind, fixtures).length === 0).map(([kind]) => kind),
  )
}
