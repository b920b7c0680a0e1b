import { BELOW } from './collections/below.ts'
import { type Collection, type Group, isCollection, type Single } from './collections/collection.ts'
import { GROUND } from './collections/ground.ts'
import { LIFTING } from './collections/lifting.ts'
import { MACHINE } from './collections/machine.ts'
import { PROGRAMME } from './collections/programme.ts'
import { RECORDS } from './collections/records.ts'
import { RISK } from './collections/risk.ts'
import { SITE } from './collections/site.ts'
import { VIEWS } from './collections/views.ts'

/** Everything that can be edited, in the order of the work. */
export const GROUPS: readonly Group[] = [
  { title: 'Machine', of: MACHINE },
  { title: 'Shaft and ground', of: GROUND },
  { title: 'Site', of: SITE },
  { title: 'Lifting', of: LIFTING },
  { title: 'Programme', of: PROGRAMME },
  { title: 'People below ground', of: BELOW },
  { title: 'Records', of: RECORDS },
  { title: 'Risk', of: RISK },
  {
    title: 'Project',
    of: [{ at: '/settings', title: 'Settings' }, { at: '/about', title: 'About' }, ...VIEWS],
  },
]

/** The table or the thing at an address. */
export const tableAt = (at: string): Collection | Single | undefined =>
  GROUPS.flatMap((group) => group.of).find((of) => of.at === at)

/** The collection that an address of one of its entities lies in, such as `/services/W-1`. */
export const tableHolding = (address: string): Collection | undefined => {
  const of = tableAt(address.replace(/\/[^/]*$/, ''))
  return of !== undefined && isCollection(of) ? of : undefined
}
