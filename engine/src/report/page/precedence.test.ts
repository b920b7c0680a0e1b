import { expect, test } from 'vitest'
import { primitivesOf, textsOf, type View } from '../drawing.ts'
import { type PrecedencePiece, precedenceDrawing } from './precedence.ts'

const piece = (id: string, place: number, after: readonly string[]): PrecedencePiece => ({
  id,
  piece: id,
  name: `Piece ${id}`,
  short: id,
  place,
  aside: false,
  after,
  instead: {},
})

test('a piece stands to the right of everything it waits for, and none lies over another', () => {
  const pieces = [piece('a', 1, []), piece('b', 2, ['a']), piece('c', 3, ['a']), piece('d', 4, ['b', 'c'])]
  const { marks, missing, width, height } = precedenceDrawing('Who waits for whom', pieces)
  const boxes = marks
    .filter((m): m is View => m.kind === 'view' && m.about !== undefined)
    .map((view) => {
      const shape = primitivesOf(view.marks).find((m) => m.kind === 'shape')
      const points = shape?.kind === 'shape' ? shape.loops.flat() : []
      const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)]
      return {
        id: view.id,
        left: Math.min(...xs),
        right: Math.max(...xs),
        top: Math.min(...ys),
        bottom: Math.max(...ys),
      }
    })
  expect(boxes.map((b) => b.id)).toHaveLength(4)
  const of = (id: string) => boxes.find((b) => b.id === `/pieces/${id}`) ?? { left: 0, right: 0 }
  for (const { id, after } of pieces) for (const before of after) expect(of(id).left).toBeGreaterThan(of(before).right)
  for (const a of boxes)
    for (const b of boxes)
      if (a.id < b.id)
        expect(a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top).toBe(true)
  expect(Math.max(...boxes.map((b) => b.right))).toBeLessThan(width)
  expect(Math.max(...boxes.map((b) => b.bottom))).toBeLessThan(height)
  expect(textsOf(marks).map((t) => t.text)).toContain('4  d')
  expect(missing).toEqual([])
})
