import { expect, test } from 'vitest'
import { boxAt, by, lidOnTub } from '../../strip/strip.fixture.ts'
import { boxesMeet, primitivesOf, textBox, textsOf } from '../drawing.ts'
import { HAND_PAPERS } from '../paper/size.ts'
import { stagesOf } from '../sheet/sheet.fixture.ts'
import { orderPages } from './orderPages.ts'
import { orderSheet, waitsText } from './orderSheet.ts'

/** Three blocks one on the other between two walls, and one beside them, taken in this order. */
const stack = (order: readonly string[]) =>
  stagesOf(
    lidOnTub({
      parts: {
        top: boxAt([0, 0, 2.5]),
        middle: boxAt([0, 0, 1.5]),
        low: boxAt([0, 0, 0.5]),
        beside: boxAt([3, 0, 0.5]),
        front: boxAt([1, 0, 1.5], [1, 1, 3]),
        back: boxAt([-1, 0, 1.5], [1, 1, 3]),
      },
      joints: {},
      pieces: Object.fromEntries(['top', 'middle', 'low', 'beside'].map((id) => [id, { name: id, parts: [id] }])),
      steps: Object.fromEntries(order.map((id) => [`S-${id}`, { piece: id, moves: [by(0, 0, 30)] }])),
      order: order.map((id) => `S-${id}`),
    }),
  )

test('each step says what it waits for by its place; what another waits for in turn is left out', () => {
  const steps = orderSheet(stack(['beside', 'top', 'middle', 'low']))?.steps ?? []
  expect(steps.map(waitsText)).toEqual(['waits for nothing', 'waits for nothing', 'after 2', 'after 3'])
})

test('of several that would do, one is enough', () => {
  expect(waitsText({ waits: [[2], [3], [5, 6]] })).toBe('after 2, 3 and one of 5, 6')
})

test('a step that cannot be done is named with what blocks it, in the ink of what fails', () => {
  const stages = stack(['middle', 'top', 'low', 'beside'])
  const sheet = orderSheet(stages)
  expect(sheet?.feasible).toBe(false)
  expect(sheet?.steps[0]?.blocked.join()).toContain('top')
  const texts = (orderPages(stages) ?? []).flatMap((page) => textsOf(page.marks))
  expect(texts.some((t) => t.ink === 'fail' && t.text.startsWith('cannot be done'))).toBe(true)
})

test('in the field a filled box stands left of the ring for each step that must be gone before', () => {
  const [page] = orderPages(stack(['top', 'middle', 'low', 'beside'])) ?? []
  const marks = primitivesOf(page?.marks ?? [])
  const boxes = marks.flatMap((m) =>
    m.kind === 'shape' && m.fill === 'ink' ? [m.loops[0]?.[0] as readonly number[]] : [],
  )
  const rings = marks.flatMap((m) => (m.kind === 'circle' ? [m.centre] : []))
  expect(rings).toHaveLength(4)
  // middle after top, low after middle
  expect(boxes).toHaveLength(2)
  expect(
    boxes.every(([x = 0, y = 0], i) => x < (rings[i + 1]?.[0] as number) && y < (rings[i + 1]?.[1] as number)),
  ).toBe(true)
})

test('on A4 and on Letter no words meet other words or leave the frame, in both systems of units', () => {
  const stages = stack(['beside', 'top', 'middle', 'low'])
  for (const paper of HAND_PAPERS) {
    for (const units of ['SI', 'US'] as const) {
      for (const page of orderPages(stages, { paper, units }) ?? []) {
        const boxes = textsOf(page.marks).map((t) => textBox(t))
        for (const b of boxes)
          expect([b.left >= 10, b.top >= 10, b.right <= page.width - 10, b.bottom <= page.height - 10]).not.toContain(
            false,
          )
        expect(boxes.flatMap((a, i) => boxes.slice(i + 1).filter((b) => boxesMeet(a, b)))).toEqual([])
      }
    }
  }
})
