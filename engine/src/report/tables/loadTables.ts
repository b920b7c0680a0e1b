import { localTime } from './programmeTables.ts'
import { type Column, moment, number, type Table, words } from './table.ts'
import type { Told } from './tables.ts'

const ORDER: readonly Column[] = [
  number('place'),
  words('step'),
  words('piece'),
  words('name'),
  words('lift'),
  words('from'),
  moment('out'),
  moment('back'),
  words('joints opened'),
  words('services parted'),
  words('isolations'),
  words('parts'),
]

/** The adopted order, step by step. */
export function orderTable(told: Told): Table {
  const { plan } = told.programme
  const rows = told.strip.steps.map((s, i) => [
    i + 1,
    s.step,
    s.piece,
    told.model.project.pieces[s.piece]?.name,
    s.lift,
    s.from,
    localTime(told, plan[`${s.step}.out`]?.start),
    localTime(told, plan[`${s.step}.back`]?.start),
    s.joints.join(' '),
    s.services.join(' '),
    s.isolations.join(' '),
    s.parts.join(' '),
  ])
  return { name: 'order', title: 'Order', columns: ORDER, rows }
}

const MASSES: readonly Column[] = [
  words('piece'),
  words('name'),
  words('state'),
  number('net', 'kg'),
  number('standard uncertainty', 'kg'),
  number('retained', 'kg'),
  number('allowance', 'kg'),
  number('upper design mass', 'kg'),
  number('centre of gravity x', 'm'),
  number('centre of gravity y', 'm'),
  number('centre of gravity z', 'm'),
  number('parts'),
]

/** Pieces as found, as weighed and as they go back. Centres of gravity in the site frame. */
export function massTable({ mass, model }: Told): Table {
  const rows = Object.entries(mass.pieces).flatMap(([id, piece]) =>
    (['found', 'weighed', 'returned'] as const).flatMap((state) => {
      const set = piece[state]
      if (set === undefined) return []
      const name = model.project.pieces[id]?.name
      const masses = [set.net, set.uncertainty, set.retained, set.allowance, set.design].map((m) => m.value)
      return [[id, name, state, ...masses, ...set.cogSite, set.parts.length]]
    }),
  )
  return { name: 'masses', title: 'Masses', columns: MASSES, rows }
}

const PARTS: readonly Column[] = [
  words('part'),
  words('name'),
  number('count'),
  number('mass of one', 'kg'),
  words('basis'),
  number('standard uncertainty', 'kg'),
]

/** Every entry of the parts, with the mass of one. */
export function partTable({ mass, model }: Told): Table {
  const rows = Object.entries(mass.parts).map(([id, part]) => [
    id,
    model.project.parts[id]?.name,
    model.instances.ofEntry.get(id)?.length ?? 1,
    part.mass.value,
    part.basis,
    part.uncertainty.value,
  ])
  return { name: 'parts', title: 'Parts', columns: PARTS, rows }
}

const LOADS: readonly Column[] = [
  words('lift'),
  words('piece'),
  words('kind'),
  words('mass taken'),
  words('system'),
  words('hook'),
  number('hook load', 'kg'),
  number('held against the rating', 'kg'),
  number('rated load', 'kg'),
  number('use of the rating'),
  number('greatest leg tension', 'N'),
  number('tilt', 'rad'),
  number('least clearance', 'm'),
  number('allowable wind', 'm/s'),
]

/** Hook loads and what they are held against, lift by lift. An empty cell is open, not zero. */
export function loadTable({ lift }: Told): Table {
  const rows = Object.values(lift.lifts).map((l) => {
    const tensions = l.legs.map((leg) => leg.worst.value)
    const known = tensions.length > 0 && tensions.every((t) => t !== undefined)
    const use = l.demand.value === undefined || l.rated.value === undefined ? undefined : l.demand.value / l.rated.value
    return [
      l.id,
      l.piece,
      l.kind,
      l.state,
      l.system,
      l.hook,
      l.hookLoad.value,
      l.demand.value,
      l.rated.value,
      use,
      known ? Math.max(...(tensions as number[])) : undefined,
      l.tilt.value,
      l.clearance?.gap.value,
      l.allowableWind.value,
    ]
  })
  return { name: 'loads', title: 'Lifts', columns: LOADS, rows }
}

const GROUND: readonly Column[] = [
  words('step'),
  words('piece'),
  words('what stands'),
  words('kind'),
  words('on'),
  number('x', 'm'),
  number('y', 'm'),
  number('along x', 'm'),
  number('along y', 'm'),
  number('force', 'N'),
]

/** What stands on the ground at each step of the order. */
export function groundTable({ ground }: Told): Table {
  const rows = ground.steps.flatMap(({ step, piece, loads }) =>
    loads.map((load) => [
      step,
      piece,
      load.what,
      load.kind,
      load.on,
      load.at[0],
      load.at[1],
      load.size[0],
      load.size[1],
      load.force.value,
    ]),
  )
  return { name: 'ground-loads', title: 'Loads on the ground', columns: GROUND, rows }
}
