import { useEffect, useRef } from 'react'
import { STAGES } from '../engine/stages.ts'
import { ledgerRows } from '../first/ledgerRows.ts'
import { routeTo, type Shown, useShown } from '../state.ts'
import { inOrder } from './moved.ts'
import { recall } from './remembered.ts'

/** Every key, and what it does. Single keys can be switched off; those with Ctrl, Enter and Esc cannot. */
export const KEYS: readonly { keys: string; does: string; single: boolean }[] = [
  { keys: '/', does: 'find anything', single: true },
  { keys: 'q', does: 'questions, each with its answer', single: true },
  { keys: 'g then 1…9', does: 'a stage, along the line', single: true },
  { keys: '[  ]', does: 'previous, next lift in order', single: true },
  { keys: '.', does: 'next finding: what the last edit moved, else the ledger', single: true },
  { keys: 'w', does: 'working of the row one is at', single: true },
  { keys: '?', does: 'this list', single: true },
  { keys: '↑ ↓', does: 'rows of a table', single: false },
  { keys: 'Enter', does: 'edit, or preview what was typed', single: false },
  { keys: 'Ctrl+Enter', does: 'keep', single: false },
  { keys: 'Shift+↓, Ctrl+D', does: 'in a table: a range, filled down from its first row', single: false },
  { keys: 'Esc', does: 'discard or close; focus goes back to the number', single: false },
  { keys: 'Ctrl+Z, Ctrl+Shift+Z', does: 'undo, redo', single: false },
]

interface Opens {
  onFind: () => void
  onQuestions: () => void
  onKeys: () => void
}

/** Keys that work anywhere on the page; those of one letter not while typing, and not when they are switched off. */
export function useKeys(opens: Opens): void {
  const shown = useShown()
  const now = useRef({ shown, opens })
  now.current = { shown, opens }
  useEffect(() => {
    let waitsForStage = false
    const onKey = (event: KeyboardEvent): void => {
      if (event.defaultPrevented || document.querySelector('dialog[open]') !== null) return
      if (isCommand(event, now.current.shown)) {
        event.preventDefault()
        return
      }
      const isPlain = !(event.ctrlKey || event.metaKey || event.altKey)
      if (!isPlain || isTyping(event.target) || recall('keys') === 'off') return
      if (waitsForStage) {
        waitsForStage = false
        const stage = STAGES[Number(event.key) - 1]
        if (stage !== undefined) location.hash = routeTo(stage)
        return
      }
      waitsForStage = event.key === 'g'
      const does = SINGLE[event.key]
      if (does === undefined) return
      event.preventDefault()
      does(now.current.shown, now.current.opens)
    }
    addEventListener('keydown', onKey)
    return () => removeEventListener('keydown', onKey)
  }, [])
}

/** Fields take letters; a slider, a tick and a button do not. */
export function isTyping(target: EventTarget | null): boolean {
  if (target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement) return true
  if (target instanceof HTMLElement && target.isContentEditable) return true
  return target instanceof HTMLInputElement && !['checkbox', 'radio', 'range', 'button'].includes(target.type)
}

function isCommand(event: KeyboardEvent, { act, trial }: Shown): boolean {
  if (event.key === 'Escape' && trial !== undefined) act.discard()
  else if (event.key === 'Enter' && event.ctrlKey && trial !== undefined) act.keep()
  else if (event.key.toLowerCase() !== 'z' || !(event.ctrlKey || event.metaKey) || isTyping(event.target)) return false
  else if (event.shiftKey) act.redo()
  else act.undo()
  return true
}

const SINGLE: Readonly<Record<string, (shown: Shown, opens: Opens) => void>> = {
  '/': (_, { onFind }) => onFind(),
  q: (_, { onQuestions }) => onQuestions(),
  '?': (_, { onKeys }) => onKeys(),
  '[': (shown) => toLift(shown, -1),
  ']': (shown) => toLift(shown, 1),
  '.': toNextFinding,
  w: openWorking,
}

function toLift({ summary, route }: Shown, by: number): void {
  const at = summary.lifts.findIndex((l) => l.id === route.item)
  const next = route.stage === 'lift' ? summary.lifts[Math.max(0, at) + by] : summary.lifts[0]
  if (next !== undefined) location.hash = routeTo('lift', next.id)
}

function toNextFinding({ summary, last, route }: Shown): void {
  const moved = last === undefined ? [] : inOrder(last.preview.moved).map((m) => m.check.id)
  const ids =
    moved.length > 0 ? moved : ledgerRows(summary.checks.filter((c) => c.verdict !== 'pass')).map((r) => r.check.id)
  const next = ids[(route.stage === 'project' ? ids.indexOf(route.item ?? '') + 1 : 0) % ids.length]
  if (next !== undefined) location.hash = routeTo('project', next)
}

/** The row that has the focus opens or closes its working; without one, the first row that has a working. */
function openWorking(): void {
  const at = document.activeElement?.closest('tr')
  const row = at?.querySelector('.working') ? at.previousElementSibling : (at ?? document.querySelector('main'))
  row?.querySelector<HTMLButtonElement>('button[aria-expanded]')?.click()
}

/** When an edit under trial ends and the focus has nowhere to be, it goes back to the number it came from. */
export function useFocusBack(isTrying: boolean): void {
  const from = useRef<{ element: Element; name: string | null }>(undefined)
  useEffect(() => {
    const remembered = (event: FocusEvent): void => {
      if (event.target instanceof HTMLInputElement && event.target.closest('main') !== null)
        from.current = { element: event.target, name: event.target.getAttribute('aria-label') }
    }
    addEventListener('focusin', remembered)
    return () => removeEventListener('focusin', remembered)
  }, [])
  useEffect(() => {
    if (isTrying || from.current === undefined || document.activeElement !== document.body) return
    const { element, name } = from.current
    const again = element.isConnected
      ? element
      : name !== null && document.querySelector(`main input[aria-label="${CSS.escape(name)}"]`)
    if (again instanceof HTMLElement) again.focus()
  }, [isTrying])
}
