import { type Column, number, type Table, words } from './table.ts'
import type { Told } from './tables.ts'

const COLUMNS: readonly Column[] = [
  number('place'),
  words('step'),
  words('service'),
  words('tag'),
  words('state'),
  words('kind'),
  words('medium'),
  words('from'),
  words('to'),
  words('size'),
  number('length', 'm'),
  number('pressure', 'Pa'),
  number('voltage', 'V'),
  words('isolation'),
  words('stored energy'),
  number('drained', 'm3'),
  number('time off', 's'),
  number('time on', 's'),
  words('parted by'),
  words('parted on'),
  words('tag off'),
  words('joined by'),
  words('joined on'),
  words('tag on'),
  words('port'),
  words('checked by'),
]

/**
 * The register: every service that is parted, in the order in which it comes off; joined again from the last row up. What was
 * recorded is written back by the same table.
 */
export function serviceTable({ strip, model: { project } }: Told): Table {
  const rows = strip.steps
    .flatMap(({ step, services }) => services.map((id) => ({ step, id })))
    .flatMap(({ step, id }, place) => {
      const service = project.services[id]
      if (service === undefined) return []
      const { parted, joined } = service
      const energy = service.isolation === undefined ? undefined : project.isolations[service.isolation]?.storedEnergy
      const state = joined !== undefined ? 'joined' : parted !== undefined ? 'parted' : 'not yet parted'
      return [
        [
          place + 1,
          step,
          id,
          service.tag ?? id,
          state,
          service.kind,
          service.medium,
          service.from,
          service.to,
          service.size,
          service.length?.value,
          service.pressure?.value,
          service.voltage?.value,
          service.isolation,
          energy,
          service.drained?.value,
          service.timeOff.value,
          service.timeOn.value,
          parted?.by,
          parted?.on,
          parted?.tag,
          joined?.by,
          joined?.on,
          joined?.tag,
          joined?.port,
          joined?.checkedBy,
        ],
      ]
    })
  return { name: 'services', title: 'Services', columns: COLUMNS, rows }
}
