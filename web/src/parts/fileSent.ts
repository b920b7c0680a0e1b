import { fileKind, KIND_BYTES } from '@shieldwright/engine/model/fileKind.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { problemText } from '@shieldwright/engine/working/problem.ts'

/** What is due where a file is chosen. */
export interface FileDue {
  /** Bytes at most. */
  most: number
  expected: string
  example: string
}

/** Why a file is not even read: it is empty, or larger than anything of its kind. */
export function unreadable({ name, size }: File, { most, expected, example }: FileDue): Problem | undefined {
  if (size === 0) return { pointer: name, found: 'an empty file', expected, example }
  if (size <= most) return undefined
  return {
    pointer: name,
    found: `${megabytes(size)} MB`,
    expected: `${expected} of at most ${megabytes(most)} MB`,
    example,
  }
}

const megabytes = (bytes: number): string => (bytes / 1024 / 1024).toFixed(bytes < 10 * 1024 * 1024 ? 1 : 0)

/** What a file is by its first bytes, in words; undefined for text. */
export const kindOf = async (file: File): Promise<string | undefined> =>
  fileKind(new Uint8Array(await file.slice(0, KIND_BYTES).arrayBuffer()))

/** What the host says of a file that it is sent: nothing is changed by it. */
export async function fileSent<T extends object>(
  address: string,
  file: File,
  due: FileDue,
): Promise<{ answer: T } | { refused: string }> {
  const why = unreadable(file, due)
  if (why !== undefined) return { refused: problemText(why) }
  try {
    const response = await fetch(address, { method: 'POST', body: file })
    const answer = (await response.json()) as T | { problems: readonly Problem[] }
    return 'problems' in answer ? { refused: refusalOf(answer.problems) } : { answer: answer as T }
  } catch {
    return { refused: 'the host does not answer; the file was not read' }
  }
}

const MOST_TOLD = 20

const refusalOf = (problems: readonly Problem[]): string =>
  [
    ...problems.slice(0, MOST_TOLD).map(problemText),
    ...(problems.length > MOST_TOLD ? [`and ${problems.length - MOST_TOLD} more`] : []),
  ].join('; ')
