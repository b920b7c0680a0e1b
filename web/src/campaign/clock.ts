import { dateText } from '../parts/figures.ts'

/** Day and time of an instant, UTC. */
export const dayAndTime = (ms: number): string => `${dateText(ms)} ${hourOf(ms)}`

/** Time of day of an instant, UTC. */
export const hourOf = (ms: number): string => new Date(ms).toISOString().slice(11, 16)

/** The same as an end: midnight is the end of its day. */
export const endHourOf = (ms: number): string => hourOf(ms).replace('00:00', '24:00')
