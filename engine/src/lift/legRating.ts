import type { Settings, StockItem } from '../model/index.ts'
import { type Answer, GRAVITY, given, governing, knownOr, leastOf, stated, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { basketFactor, chainHeat, chokeFactor, hitchRating } from './component.formulas.ts'
import { words } from './cure.ts'
import { heat } from './kinds.ts'
import { type LoadedRig, named } from './loadedRig.ts'
import type { Pick } from './pick.ts'
import { legRating } from './rig.formulas.ts'
import type { RigLeg } from './rig.ts'

/** Force that a leg is rated for: in its falls, in its hitch, and, of chain, at its temperature. */
export function legCapacity(pick: Pick, leg: RigLeg): Answer<'N'> {
  const { itemId, item, parts } = leg
  const straight = legRating.show({
    R: knownOr(item?.rated, 'kg', pointerOf('stock', itemId, 'rated')),
    g: GRAVITY,
    p: stated('1', parts, 'falls side by side in the arrangement'),
  })
  const hitched = inHitch(pick, leg, straight)
  const hot = pick.settings.riggingTemperature
  if (item?.kind !== 'chain sling' || hot === undefined || (hot.value ?? 0) <= CHAIN_COLD) return hitched
  return hitchRating.show({ F_0: hitched, h: chainHeat.show({ T: hot, per_K: PER_KELVIN }) })
}

const PER_KELVIN = stated('1/K', 1, 'unit')

/** Up to here a chain keeps all of its rating, K. */
const CHAIN_COLD = 473.15

function inHitch({ settings }: Pick, { item, laid, pointer }: RigLeg, F_0: Answer<'N'>): Answer<'N'> {
  if (laid.hitch === 'choke') {
    const a = knownOr(laid.chokeAngle, 'rad', `${pointer}/chokeAngle`)
    return hitchRating.show({ F_0, h: chokeFactor.show({ c_0: openChoke(settings, item?.kind), a }) })
  }
  if (laid.hitch === 'basket') {
    const a = knownOr(laid.basketAngle, 'rad', `${pointer}/basketAngle`)
    return hitchRating.show({ F_0, h: basketFactor.show({ a }) })
  }
  return F_0
}

/** Share at an open choke: wire rope by US rules three quarters, else four fifths. */
function openChoke({ riggingRules }: Settings, kind: StockItem['kind'] | undefined): Answer<'1'> {
  if (riggingRules === undefined) return given('1', '/settings/riggingRules', undefined)
  const isRope = kind === 'wire rope sling' || kind === 'wire rope grommet'
  return riggingRules === 'US' && isRope
    ? stated('1', 0.75, 'ASME B30.9, wire rope (from memory); a training course prints three quarters as well')
    : stated('1', 0.8, 'chain brochure and sling data sheet; EN 818-4, EN 1492')
}

const ROPE = { European: 5, US: 5 }
const FIBRE = { European: 7, US: 5 }
const FACTORS: Partial<Record<StockItem['kind'], { European: number; US: number }>> = {
  'wire rope sling': ROPE,
  'wire rope grommet': ROPE,
  'chain sling': { European: 4, US: 4 },
  'round sling': FIBRE,
  'web sling': FIBRE,
}

/** Design factor that a kind of sling needs; open where the two families differ and the project has not chosen. */
export function requiredFactor({ settings }: Pick, kind: StockItem['kind']): Answer<'1'> | undefined {
  const factors = FACTORS[kind]
  if (factors === undefined) return undefined
  if (factors.European === factors.US) return stated('1', factors.US, `least for a ${kind}, by either family of rules`)
  return settings.riggingRules === undefined
    ? given('1', '/settings/riggingRules', undefined)
    : stated('1', factors[settings.riggingRules], `least for a ${kind} by ${settings.riggingRules} rules`)
}

const celsius = (degrees: number): number => degrees + 273.15

/** The hottest that a sling may be, K. */
function hottest({ settings }: Pick, id: string, item: StockItem): Answer<'K'> | undefined {
  const isEuropean = settings.riggingRules === 'European'
  const limit = (degrees: number, text: string): Answer<'K'> => stated('K', celsius(degrees), text)
  switch (item.kind) {
    case 'wire rope sling':
    case 'wire rope grommet':
      if (item.core === undefined) return given('K', pointerOf('stock', id, 'core'), undefined)
      if (item.core === 'fibre')
        return limit(93.3, '29 CFR 1926.251(c): fibre core, 200 °F; held to under either rules')
      return isEuropean
        ? limit(150, 'EN 13414-1, steel core with ferrule (from memory)')
        : limit(204.4, 'ASME B30.9, steel core, 400 °F (from memory)')
    case 'chain sling':
      return isEuropean
        ? limit(400, 'EN 818-4 through a catalogue, with reductions from 200 °C')
        : limit(204.4, 'ASME B30.9, alloy chain, 400 °F without reduction (from memory)')
    case 'round sling':
    case 'web sling':
      return isEuropean
        ? limit(100, 'EN 1492, polyester and polyamide (from memory); fibres of high modulus bear less')
        : limit(90, 'ASME B30.9, 194 °F (from memory)')
    default:
      return undefined
  }
}

/** The warmest that rigging gets against what its slings bear. */
export function heatCheck(pick: Pick, rig: LoadedRig): Check[] {
  const items = new Map(
    rig.legs.flatMap(({ leg }) => (leg.item === undefined ? [] : [[leg.itemId, leg.item] as const])),
  )
  const limits = [...items].flatMap(([id, item]): Term<'K'>[] => {
    const answer = hottest(pick, id, item)
    return answer === undefined ? [] : [{ label: `${item.name ?? item.kind} ${id}`, answer }]
  })
  if (limits.length === 0) return []
  const demand = knownOr(pick.settings.riggingTemperature, 'K', '/settings/riggingTemperature')
  const capacity = leastOf('Hottest that the slings may be', 'K', limits)
  return [
    check({
      kind: heat,
      ...named(pick, rig, 'slings'),
      demand,
      capacity,
      found: [
        `${words(demand)}, where ${governing(capacity)?.label} bears no more than ${words(capacity)}: let it cool, shield the slings, or take slings rated for that heat`,
      ],
      // a temperature is no share of an absolute one
      near: 1,
    }),
  ]
}
