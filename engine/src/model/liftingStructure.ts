import type { Problem } from '../working/problem.ts'
import type { ReadProject } from './schema/project.ts'

/** Charts, mats, lugs, standings, steps whose lift carries something else, and an order that names a step twice. */
export function liftingProblems(project: ReadProject): Problem[] {
  return [
    ...chartProblems(project),
    ...matProblems(project),
    ...lugProblems(project),
    ...standingProblems(project),
    ...headingProblems(project),
    ...stepProblems(project),
    ...orderProblems(project),
  ]
}

/** A heading belongs to a standing. */
function headingProblems({ systems }: ReadProject): Problem[] {
  return Object.entries(systems).flatMap(([id, { headings, standings }]) =>
    headings.length <= standings.length
      ? []
      : [
          {
            pointer: `/systems/${id}/headings`,
            found: `${headings.length} headings`,
            expected: `at most one for each of its ${standings.length} standings`,
          },
        ],
  )
}

function chartProblems({ systems }: ReadProject): Problem[] {
  return Object.entries(systems).flatMap(([system, { hooks }]) =>
    Object.entries(hooks).flatMap(([hook, { chart = [], charts }]) => [
      ...fallingRadii(chart, `/systems/${system}/hooks/${hook}/chart`),
      ...Object.entries(charts).flatMap(([id, { rows }]) =>
        fallingRadii(rows, `/systems/${system}/hooks/${hook}/charts/${id}/rows`),
      ),
    ]),
  )
}

type Rows = NonNullable<ReadProject['systems'][string]['hooks'][string]['chart']>

function fallingRadii(rows: Rows, at: string): Problem[] {
  return rows.flatMap(({ radius }, i) => {
    const before = rows[i - 1]?.radius.value
    return before === undefined || (radius.value as number) > before
      ? []
      : [
          {
            pointer: `${at}/${i}/radius`,
            found: `${radius.value} m`,
            expected: `more than the ${before} m before it: radii rise along a chart`,
          },
        ]
  })
}

/** Ground under two mats that overlap would be counted twice; mats beyond the ends of a track carry nothing. */
function matProblems({ systems }: ReadProject): Problem[] {
  return Object.entries(systems).flatMap(([system, { outriggers, tracks }]) => {
    const at = `/systems/${system}`
    const floats = [0, 1].flatMap((way) =>
      tooLong(`${at}/outriggers/mat/${way}`, outriggers?.mat[way], outriggers?.base[way], 'between two floats'),
    )
    return [
      ...floats,
      ...tooLong(`${at}/tracks/mat/0`, tracks?.mat?.[0], tracks?.length, 'over which a track bears'),
      ...tooLong(`${at}/tracks/mat/1`, tracks?.mat?.[1], tracks?.gauge, 'between the centres of the tracks'),
    ]
  })
}

type Length = { value: number | undefined }

function tooLong(pointer: string, mat: Length | undefined, room: Length | undefined, where: string): Problem[] {
  const [size, most] = [mat?.value, room?.value]
  return size === undefined || most === undefined || size <= most
    ? []
    : [{ pointer, found: `${size} m`, expected: `no more than the ${most} m ${where}` }]
}

/** A hole leaves a plate about it, and the pin goes through it. */
function lugProblems({ pieces, gear }: ReadProject): Problem[] {
  const owners = [
    ...Object.entries(pieces).map(([id, { points }]) => ({ at: `/pieces/${id}`, points })),
    ...Object.entries(gear).map(([id, { points }]) => ({ at: `/gear/${id}`, points })),
  ]
  return owners.flatMap(({ at, points }) =>
    Object.entries(points).flatMap(([id, { lug }]) =>
      lug === undefined ? [] : lugFaults(`${at}/points/${id}/lug`, lug),
    ),
  )
}

type Lug = NonNullable<ReadProject['pieces'][string]['points'][string]['lug']>

function lugFaults(at: string, { hole, pin, radius }: Lug): Problem[] {
  const [across, most, through] = [hole.value as number, 2 * (radius.value as number), pin.value as number]
  return [
    ...(across < most
      ? []
      : [
          {
            pointer: `${at}/hole`,
            found: millimetres(across),
            expected: `less than ${millimetres(most)}, twice from its centre to the edge: nothing is left of the plate`,
          },
        ]),
    ...(through <= across
      ? []
      : [
          {
            pointer: `${at}/pin`,
            found: millimetres(through),
            expected: `no more than the hole of ${millimetres(across)} that it goes through`,
          },
        ]),
  ]
}

const millimetres = (metres: number): string => `${Number((metres * 1000).toFixed(1))} mm`

function standingProblems({ lifts, systems }: ReadProject): Problem[] {
  const stands = Object.entries(lifts).flatMap(([id, { standing, system, tail }]) => [
    { at: `/lifts/${id}/standing`, standing, system },
    { at: `/lifts/${id}/tail/standing`, standing: tail?.standing, system: tail?.system ?? system },
  ])
  return stands.flatMap(({ at, standing, system }) => {
    const places = systems[system]?.standings.length
    return standing === undefined || places === undefined || standing < places
      ? []
      : [
          {
            pointer: at,
            found: String(standing),
            expected: `a standing of ${system}, counted from 0; it has ${places}`,
          },
        ]
  })
}

function stepProblems({ steps, lifts, pieces }: ReadProject): Problem[] {
  return Object.entries(steps).flatMap(([id, step]) =>
    (['lift', 'back'] as const).flatMap((field) => {
      const carried = lifts[step[field] ?? '']?.piece
      return carried === undefined || carried === step.piece || !Object.hasOwn(pieces, carried)
        ? []
        : [
            {
              pointer: `/steps/${id}/${field}`,
              found: `a lift of "${carried}"`,
              expected: `a lift of "${step.piece}", which this step moves`,
            },
          ]
    }),
  )
}

function orderProblems({ order }: ReadProject): Problem[] {
  return order.flatMap((step, i) =>
    order.indexOf(step) < i
      ? [{ pointer: `/order/${i}`, found: `"${step}" a second time`, expected: 'each step once in the order' }]
      : [],
  )
}
