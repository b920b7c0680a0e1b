import { keepInSight, whenDrawn } from '../frame/inSight.ts'

/** Opens an address and, once it is there, brings the section under a heading into sight with the focus on it. */
export function toPlace({ href, under }: { href: string; under?: string }): void {
  location.hash = href
  if (under === undefined) return
  whenDrawn(() => sectionUnder(href, under), show)
}

/** The section of the page at an address whose heading begins with these words; the page before may have one like it. */
function sectionUnder(href: string, heading: string): HTMLElement | undefined {
  const found = [...document.querySelectorAll(`main[data-at="${CSS.escape(href)}"] h2`)].find((h) =>
    h.textContent?.trim().startsWith(heading),
  )
  return found?.closest<HTMLElement>('section') ?? (found as HTMLElement | undefined)
}

/** Shown until the reader goes on; what is still worked out above it does not push it out of sight. */
function show(section: HTMLElement): () => void {
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
  return goOn
}
