/** One line of the bench: a measure, what it came to, and the limit it must keep, if it has one. */
export interface Line {
  what: string
  value: string
  limit?: string
  holds: boolean
  /** A time is told against its limit and fails nothing: a busy machine invents differences. */
  isTime?: true
}

export function reported(what: string, value: number, unit: string): Line {
  return { what, value: `${Number(value.toPrecision(4))} ${unit}`.trim(), holds: true }
}

/** A figure against the most it should come to. */
export const atMost = (what: string, value: number, unit: string, most: number): Line => ({
  ...reported(what, value, unit),
  limit: `${most} ${unit}`.trim(),
  holds: value <= most,
})

export const timeAtMost = (what: string, milliseconds: number, most: number): Line => ({
  ...atMost(what, milliseconds, 'ms', most),
  isTime: true,
})

/** The last column: nothing where the limit is kept. */
export const markOf = ({ holds, isTime }: Line): string => (holds ? '' : isTime ? 'over' : 'BROKEN')
