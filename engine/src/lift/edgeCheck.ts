import { type Answer, knownOr, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { faultsFound } from '../working/fault.ts'
import { pointerOf } from '../working/pointer.ts'
import { edge } from './kinds.ts'
import { type LoadedLeg, type LoadedRig, named } from './loadedRig.ts'
import type { Pick } from './pick.ts'

/** Legs in a choke or a basket lie round the piece: each edge that they meet is round enough, or covered. */
export function edgeCheck(pick: Pick, rig: LoadedRig): Check[] {
  const round = rig.legs.filter(({ leg }) => leg.laid.hitch !== 'straight')
  if (round.length === 0) return []
  const bare = round.filter(({ leg }) => leg.laid.padded === undefined).map(edgeOf)
  const sharp = bare.filter(({ r, t }) => r.value !== undefined && t.value !== undefined && r.value < t.value)
  return [
    check({
      kind: edge,
      ...named(pick, rig, 'edges'),
      demand: faultsFound(
        sharp.length,
        'legs round an edge that is sharper than they are thick, and bare',
        Object.fromEntries(
          bare.flatMap(({ id, r, t }): [string, Answer][] => [
            [`${id}: radius of the edge`, r],
            [`${id}: its thickness`, t],
          ]),
        ),
      ),
      capacity: stated('1', 0, 'none allowed'),
      near: 1,
      assumptions: round.flatMap(({ leg }) =>
        leg.laid.padded === undefined ? [] : [`${leg.id}: edges covered by ${leg.laid.padded}.`],
      ),
      found: sharp.map(
        ({ id, r, t }) =>
          `${id}, ${millimetres(t)} thick, goes round an edge of ${millimetres(r)}: cover it (\`padded\`), or round it off`,
      ),
    }),
  ]
}

const edgeOf = ({ leg }: LoadedLeg) => ({
  id: leg.id,
  r: knownOr(leg.laid.edge, 'm', `${leg.pointer}/edge`),
  t: knownOr(leg.item?.body, 'm', pointerOf('stock', leg.itemId, 'body')),
})

const millimetres = ({ value }: Answer<'m'>): string => `${((value ?? 0) * 1000).toFixed(0)}\u00a0mm`
