import { keepInSight } from '../frame/inSight.ts'

/** How long a section is waited for that the engine still works out, ms. */
const PATIENCE = 15_000

/** Opens an address and, once it is there, brings the section under a heading into sight with the focus on it. */
export function toPlace({ href, under }: { href: string; under?: string }): void {
  location.hash = href
  if (under === undefined) return
  const end = performance.now() + PATIENCE
  const look = (): void => {
    const section = sectionUnder(href, under)
    if (section !== undefined) show(section)
    else if (performance.now() < end) requestAnimationFrame(look)
  }
  requestAnimationFrame(look)
}

/** The section of the page at an address whose heading begins with these words; the page before may have one like it. */
function sectionUnder(href: string, heading: string): HTMLElement | undefined {
  const found = [...document.querySelectorAll(`main[data-at="${CSS.escape(href)}"] h2`)].find((h) =>
    h.textContent?.trim().startsWith(heading),
  )
  return found?.closest<HTMLElement>('section') ?? (found as HTMLElement | undefined)
}

/** Shown until the reader goes on; what is still worked out above it does not push it out of sight. */
function show(section: HTMLElement): void {
  section.tabIndex = -1
  section.focus({ preventScroll: true })
  section.classList.add('asked')
  const goOn = keepInSight(section, 'start')
  section.addEventListener(
    'blur',
    () => {
      goOn()
      section.classList.remove('asked')
    },
    { once: true },
  )
}
