import type { Locator, Page } from 'playwright-core'

/** A cell of a table by its address in the project file. */
export const cellAt = (page: Page, pointer: string): Locator => page.locator(`td[data-pointer="${pointer}"]`)

/** Types into a cell as a hand does: pressed, written over, and Enter. */
export async function typeInto(page: Page, pointer: string, text: string): Promise<void> {
  await cellAt(page, pointer).click()
  const field = cellAt(page, pointer).locator('input, select')
  await field.fill(text)
  await field.press('Enter')
}

/** What hangs from the line while an edit is looked at. */
export const consequences = (page: Page): Locator => page.getByRole('region', { name: 'Consequences of this edit' })

/** Waits until the preview is worked out, and gives its text. */
export async function previewed(page: Page): Promise<string> {
  await consequences(page).getByText('results read this').waitFor({ timeout: 30_000 })
  return (await consequences(page).textContent()) ?? ''
}

/** Keeps what is looked at, and waits until it is kept. */
export async function keep(page: Page): Promise<void> {
  await previewed(page)
  await consequences(page).getByRole('button', { name: /^Keep/ }).click()
  await consequences(page).waitFor({ state: 'detached', timeout: 30_000 })
}

/** Puts a block on a focused cell, as a spreadsheet's copy does. */
export async function paste(page: Page, text: string): Promise<void> {
  await page.evaluate((block) => {
    const clipboardData = new DataTransfer()
    clipboardData.setData('text/plain', block)
    document.activeElement?.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }),
    )
  }, text)
}
