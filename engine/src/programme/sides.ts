import type { Network } from './network.ts'
import type { Instance } from './rcpsp/instance.ts'
import { groundOf, instanceImprover } from './rcpsp/instanceSides.ts'
import type { News, Side } from './rcpsp/side.ts'
import { searchOf } from './search.ts'

/** What the side that improves is to work on: plain data, so that it can be sent to another thread. */
export type SideOrder =
  | { kind: 'instance'; instance: Instance; seed: number }
  | { kind: 'network'; network: Network; seed: number; bound: number }

/** The side that improves, made from its order: the same from the same order, in whatever thread. */
export function improverOf(order: SideOrder, shouldContinue: () => boolean = () => true): Side {
  switch (order.kind) {
    case 'instance':
      return instanceImprover(order.instance, groundOf(order.instance), order.seed, shouldContinue)
    case 'network':
      return networkImprover(order, shouldContinue)
    default:
      throw new Error(`there is no side for ${order satisfies never}`)
  }
}

/** A genetic search on a programme's network; what the other side finds becomes one of its plans. */
function networkImprover(
  { network, seed, bound }: Extract<SideOrder, { kind: 'network' }>,
  shouldContinue: () => boolean,
): Side {
  const search = searchOf(network, seed)
  let least = bound
  const news = (): News => {
    const { restart, dates } = search.best().plan
    const work = { schedules: search.schedules(), conflicts: 0 }
    return { value: restart, starts: Array.from(dates.start), bound: least, closed: restart <= least, ...work }
  }
  return {
    go: (effort) => {
      const until = search.schedules() + effort
      while (search.schedules() < until && search.best().plan.restart > least && shouldContinue()) search.step()
      return news()
    },
    tell: (told) => {
      least = Math.max(least, told.bound)
      if (told.starts.length > 0 && told.value < search.best().plan.restart) search.tell(told.starts)
      return news()
    },
  }
}
