import { type Answer, given, largestOf, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import {
  bridleByAngle,
  bridleRating,
  bridleTension,
  legsByRule,
  skewTension,
  uniformBridle,
} from './component.formulas.ts'
import { times, tooMuch } from './cure.ts'
import { legRule } from './kinds.ts'
import { legCapacity } from './legRating.ts'
import { type LoadedLeg, type LoadedRig, named } from './loadedRig.ts'
import type { Pick } from './pick.ts'

/** Tension of a leg of a bridle by one way of counting. */
export interface BridleRule {
  label: string
  tension: Answer<'N'>
}

/** A bridle of three legs and more to one hook, by equilibrium and by the rules of thumb beside it. */
export interface Bridle {
  hook: string
  rules: readonly BridleRule[]
  /** Which of equilibrium and the standards' rule asks for more; undefined while either is open. */
  governs: string | undefined
}

const EQUILIBRIUM = 'equilibrium at the worst corner'

/** Ways of counting a bridle; undefined where fewer than three legs go to the hook itself. */
export function bridleOf(pick: Pick, rig: LoadedRig): Bridle | undefined {
  const legs = bridleLegs(rig)
  if (legs.length < 3) return undefined
  const n = stated('1', legs.length, 'legs to the hook')
  const equilibrium = largestOf(
    'Largest tension of a leg in equilibrium',
    'N',
    legs.map(({ leg, tension }) => ({ label: leg.id, answer: tension })),
  )
  const rule = bridleTension.show({ W: rig.load, K: countsFor(pick, rig, n) })
  const rules = [
    { label: EQUILIBRIUM, tension: equilibrium },
    { label: ruleName(pick), tension: rule },
    ...(legs.length === 4 ? fourLegs(rig) : []),
  ]
  const [a, b] = [equilibrium.value, rule.value]
  const governs = a === undefined || b === undefined ? undefined : a >= b ? EQUILIBRIUM : ruleName(pick)
  return { hook: rig.hooked.key, rules, governs }
}

const bridleLegs = ({ legs }: LoadedRig): LoadedLeg[] => legs.filter(({ leg }) => !leg.above && leg.node === undefined)

const ruleName = ({ settings }: Pick): string =>
  settings.riggingRules === 'European' ? 'European rule, all legs alike' : 'US rule, by the angle'

/** Shown beside the rules that are held to: for four legs alone. */
function fourLegs(rig: LoadedRig): BridleRule[] {
  const beta = rig.flattest
  const four = stated('1', 4, 'legs to the hook')
  return [
    {
      label: 'factor 1.25 for skew, matched pairs',
      tension: skewTension.show({ W: rig.load, n: four, beta, S: stated('1', 1.25, 'four slings in matched pairs') }),
    },
    {
      label: 'two legs on a diagonal carry all',
      tension: legsByRule.show({ W: rig.load, n: stated('1', 2, 'two opposite legs'), beta }),
    },
  ]
}

/** How many straight ratings a bridle counts for, by the rules that the project chose. */
function countsFor({ settings }: Pick, { flattest }: LoadedRig, n: Answer<'1'>): Answer<'1'> {
  switch (settings.riggingRules) {
    case undefined:
      return given('1', '/settings/riggingRules', undefined)
    case 'European':
      return uniformBridle.show({ n, beta: flattest })
    case 'US':
      return bridleByAngle.show({ n, beta: flattest })
    default:
      return settings.riggingRules satisfies never
  }
}

/** The bridle against what the rule lets its weakest leg count for. */
export function bridleChecks(pick: Pick, rig: LoadedRig): Check[] {
  const bridle = bridleOf(pick, rig)
  if (bridle === undefined) return []
  const legs = bridleLegs(rig)
  const n = stated('1', legs.length, 'legs to the hook')
  const weakest = legs
    .map(({ leg }) => legCapacity(pick, leg))
    .sort((a, b) => (a.value ?? 0) - (b.value ?? 0))[0] as Answer<'N'>
  const capacity = bridleRating.show({ K: countsFor(pick, rig, n), F_1: weakest })
  return [
    check({
      kind: legRule,
      ...named(pick, rig, 'rule'),
      title: `${legRule.title}: ${legs.length} legs`,
      demand: rig.load,
      capacity,
      found: tooMuch(rig.load, capacity, ruleCure(rig.load, capacity)),
      assumptions: [
        bridle.rules.map(({ label, tension }) => `${label} ${forceText(tension.value)}`).join('; '),
        ...(bridle.governs === undefined ? [] : [`Of equilibrium and the rule, the governing one: ${bridle.governs}.`]),
      ],
    }),
  ]
}

/** Slings as much stronger; they count in proportion to their rating. */
const ruleCure = ({ value: load }: Answer<'N'>, { value: bears }: Answer<'N'>): string =>
  load === undefined || bears === undefined || bears <= 0
    ? 'stronger slings'
    : `every leg rated ${times(load / bears)} as high, or longer legs where the rule counts their angle`

const forceText = (newtons: number | undefined): string =>
  newtons === undefined ? 'open' : `${(newtons / 1000).toFixed(0)} kN`
