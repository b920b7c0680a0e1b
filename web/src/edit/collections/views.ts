import { type Collection, column, note } from './collection.ts'

/** Pictures in three dimensions that are kept. */
export const VIEWS: readonly Collection[] = [
  {
    at: '/views',
    title: 'Saved views',
    one: 'view',
    name: '/name',
    columns: [
      column('Name', '/name', { width: 28 }),
      column('Around', '/around'),
      column('Up', '/up'),
      column('Distance', '/distance'),
      column('Left out', '/hidden', { width: 24 }),
      column('Selected', '/selected', { width: 22 }),
      column('Along', '/along', { width: 8 }),
      note,
    ],
  },
]
