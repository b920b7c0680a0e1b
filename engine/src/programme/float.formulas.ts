import { formula } from '../working/formula.ts'

/** What of an activity's float its successors lose when it is taken. */
export const interferingFloat = formula({
  id: 'programme.float.interfering',
  title: 'Interfering float',
  source: { basis: 'memory', text: 'the usual definition in texts on network planning: total float less free float' },
  gives: ['I', 's'],
  from: { T: ['s', 'total float'], F: ['s', 'free float'] },
  as: 'T - F',
})
