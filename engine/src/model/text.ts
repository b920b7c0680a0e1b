import type { Problem } from '../working/problem.ts'
import { readJson } from './textJson.ts'
import { LONGEST_TEXT, textProblem } from './textPlace.ts'
import { readYaml } from './textYaml.ts'

export type TextResult = { document: unknown; problems: readonly [] } | { document?: undefined; problems: Problem[] }

/**
 * Plain data from the text of a project file, JSON (RFC 8259) or YAML 1.2. The text may come from anywhere: size, depth and
 * the expansion of aliases are bounded, a name given twice is said, and names that reach an object's own machinery are
 * refused. Nothing is thrown.
 *
 * @param text what the file holds, decoded; a byte order mark at its start is passed over
 * @param form JSON when the text opens with a brace, YAML otherwise, unless it is said here
 * @returns the data, or problems with line and column
 */
export function readText(text: string, form?: 'json' | 'yaml'): TextResult {
  const plain = text.startsWith('\uFEFF') ? text.slice(1) : text
  if (plain.length > LONGEST_TEXT)
    return {
      problems: [
        { pointer: '', found: `${plain.length} characters`, expected: `a file of at most ${LONGEST_TEXT} characters` },
      ],
    }
  const stray = strayControl(plain)
  if (stray !== undefined) return { problems: [stray] }
  return (form ?? formOf(plain)) === 'json' ? readJson(plain) : readYaml(plain)
}

const formOf = (text: string): 'json' | 'yaml' => (/^\s*\{/.test(text) ? 'json' : 'yaml')

/** Control characters other than tab and line ends: a text file has none, a file of another kind has many. */
function strayControl(text: string): Problem | undefined {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
  const at = text.search(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/)
  return at < 0 ? undefined : textProblem(text, at, controlName(text.charCodeAt(at)), 'plain text')
}

const controlName = (code: number): string =>
  `the control character U+${code.toString(16).toUpperCase().padStart(4, '0')}`
