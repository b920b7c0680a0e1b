import { pageBuilt } from '../../scripts/page.mjs'

/** Before the first journey: the page that the server hands out is built from the present sources. */
export function setup(): void {
  if (!pageBuilt()) throw new Error('the page did not build')
}
