import { readExpression } from './expression.ts'
import { evaluator } from './program.ts'

/** A line of numbers such as "σ = 2 · 3 = 6" as a reader takes it: what the numbers give, and what is shown for them. */
export function lineRead(line: string): { worked: number; shown: number } {
  const cut = line.lastIndexOf(' = ')
  const expression = line.slice(0, cut)
  return { worked: evaluator(readExpression(asTyped(expression)))({}), shown: Number(plainNumber(line.slice(cut + 3))) }
}

const plainNumber = (text: string): string => text.replace(/[()]/g, '').replace(/−/g, '-')

/** The printed signs as they are typed: roots, bars and cases by their names. */
function asTyped(printed: string): string {
  const plain = printed
    .replace(/ · /g, ' * ')
    .replace(/−/g, '-')
    .replace(/√\(/g, 'sqrt(')
    .replace(/π/g, 'pi')
    .replace(/≤/g, '<=')
    .replace(/≥/g, '>=')
    .replace(/ = /g, ' == ')
  return casesTyped(barsTyped(plain))
}

/** |x| → abs(x): a bar opens where a value is due and closes where one has been. */
function barsTyped(text: string): string {
  let typed = ''
  for (const sign of text) {
    const valueDue = /(^|[-+*/^(,<>=]|\b(?:if|else|and|or))\s*$/.test(typed)
    typed += sign !== '|' ? sign : valueDue ? 'abs(' : ')'
  }
  return typed
}

/** (b if a, else c) → if(a, b, c), innermost first. */
function casesTyped(text: string): string {
  const at = text.lastIndexOf(' if ')
  if (at < 0) return text
  const open = matching(text, at, -1)
  const close = matching(text, at, 1)
  const comma = topComma(text, at + 4, close)
  const [b, a, c] = [text.slice(open + 1, at), text.slice(at + 4, comma), text.slice(comma + ', else '.length, close)]
  return casesTyped(`${text.slice(0, open)}if(${a}, ${b}, ${c})${text.slice(close + 1)}`)
}

/** The bracket round a place, before or after it. */
function matching(text: string, from: number, step: 1 | -1): number {
  const [into, out] = step < 0 ? [')', '('] : ['(', ')']
  let depth = 0
  for (let i = from; i >= 0 && i < text.length; i += step) {
    if (text[i] === into) depth++
    if (text[i] === out && depth-- === 0) return i
  }
  throw new Error(`no bracket round ${from} in ${text}`)
}

function topComma(text: string, from: number, to: number): number {
  let depth = 0
  for (let i = from; i < to; i++) {
    if (text[i] === '(') depth++
    if (text[i] === ')') depth--
    if (depth === 0 && text.startsWith(', else ', i)) return i
  }
  throw new Error(`no else in ${text}`)
}
