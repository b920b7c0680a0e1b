import type { Page } from 'playwright-core'

/** A text on the page and the box it fills, as far as nothing clips it. */
interface TextBox {
  text: string
  /** Which text of the page: one that is broken over lines has several boxes. */
  node: number
  where: string
  /** Lies over the page: a dialog, or something that stays in place while the page moves under it. */
  above: boolean
  left: number
  top: number
  right: number
  bottom: number
}

/**
 * What on the page as it stands runs into something else: texts that lie over other texts, that are cut by the box they
 * stand in, or that leave the window. Measured after the fonts are there; what a table scrolls out of sight is no fault.
 *
 * @returns one line a fault, empty where all is well
 */
export async function boxFaults(page: Page): Promise<string[]> {
  await page.evaluate(() => document.fonts.ready)
  const { texts, cut } = await page.evaluate(boxesInPage)
  const width = page.viewportSize()?.width ?? 0
  return [...cut, ...leaving(texts, width), ...overlapping(texts)]
}

/** How far two boxes of text may run into each other, px: a box is as high as its font, not as the letters in it. */
const SLACK = { across: 1.5, down: 4 }

const leaving = (texts: readonly TextBox[], width: number): string[] =>
  texts
    .filter((t) => t.left < -1 || t.right > width + 1)
    .map((t) => `“${t.text}” leaves the window (${t.where}, ${Math.round(t.left)} to ${Math.round(t.right)})`)

function overlapping(texts: readonly TextBox[]): string[] {
  const down = [...texts].sort((a, b) => a.top - b.top)
  return down.flatMap((a, i) => {
    const faults: string[] = []
    for (let j = i + 1; j < down.length; j++) {
      const b = down[j] as TextBox
      if (b.top > a.bottom - SLACK.down) break
      if (a.node !== b.node && a.above === b.above && isOver(a, b) && !isSame(a, b))
        faults.push(`“${a.text}” lies over “${b.text}” (${a.where}; ${b.where})`)
    }
    return faults
  })
}

const isOver = (a: TextBox, b: TextBox): boolean =>
  Math.min(a.right, b.right) - Math.max(a.left, b.left) > SLACK.across &&
  Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > SLACK.down

/** One text drawn twice in one place: with a halo of the sheet's colour behind it. */
const isSame = (a: TextBox, b: TextBox): boolean =>
  a.text === b.text && Math.abs(a.left - b.left) < 3 && Math.abs(a.top - b.top) < 3

/** Runs in the page: all that it uses stands inside it. */
function boxesInPage(): { texts: TextBox[]; cut: string[] } {
  const texts: TextBox[] = []
  const cut = new Set<string>()
  const placeOf = (e: Element): string => {
    const name = (x: Element): string => x.tagName.toLowerCase() + (x.classList[0] ? `.${x.classList[0]}` : '')
    return e.parentElement === null ? name(e) : `${name(e.parentElement)} > ${name(e)}`
  }
  const short = (text: string): string => {
    const plain = text.replace(/\s+/g, ' ').trim()
    return plain.length > 40 ? `${plain.slice(0, 39)}…` : plain
  }
  let nodes = 0
  const read = (node: Text): void => {
    nodes++
    const holder = node.parentElement
    const text = short(node.data)
    if (holder === null || text === '' || !holder.checkVisibility({ visibilityProperty: true, opacityProperty: true }))
      return
    if (holder.closest('.unseen, script, style, math') !== null) return
    // What only those who hear the page are told is a box of one pixel.
    if (holder.clientWidth === 1 && holder.clientHeight === 1) return
    const folded = holder.closest('details:not([open])')
    if (folded !== null && holder.closest('summary')?.parentElement !== folded) return
    const range = document.createRange()
    range.selectNodeContents(node)
    for (const rect of range.getClientRects()) {
      const box = { left: rect.left, top: rect.top, right: rect.right, bottom: rect.bottom }
      let above = false
      let turned = false
      for (let at: Element | null = holder; at !== null; at = at.parentElement) {
        const style = getComputedStyle(at)
        if (style.position === 'fixed' || style.position === 'sticky' || at.tagName === 'DIALOG') above = true
        if (at instanceof SVGElement && /rotate|matrix/.test(at.getAttribute('transform') ?? '')) turned = true
        const clips = style.overflowX !== 'visible' || style.overflowY !== 'visible'
        if (!clips || at === document.body || at === document.documentElement) continue
        const edge = at.getBoundingClientRect()
        const hides = style.overflowX === 'hidden' || style.overflowX === 'clip'
        if (hides && (box.right > edge.right + 1 || box.left < edge.left - 1))
          cut.add(`“${text}” is cut (${placeOf(at)})`)
        box.left = Math.max(box.left, edge.left)
        box.right = Math.min(box.right, edge.right)
        box.top = Math.max(box.top, edge.top)
        box.bottom = Math.min(box.bottom, edge.bottom)
      }
      // The box of a text that is turned is larger than the text.
      if (turned || box.right - box.left < 1 || box.bottom - box.top < 1) continue
      texts.push({ text, node: nodes, where: placeOf(holder), above, ...box })
    }
  }
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
  for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) read(node as Text)
  for (const field of document.querySelectorAll<HTMLInputElement>('input')) {
    const isText = ['text', 'search', 'number', ''].includes(field.type)
    if (isText && field.checkVisibility() && field.scrollWidth > field.clientWidth + 1)
      cut.add(`“${short(field.value)}” is cut by its field (${field.ariaLabel ?? field.name})`)
  }
  return { texts, cut: [...cut] }
}
