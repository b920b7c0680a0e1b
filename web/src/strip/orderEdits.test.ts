import { applyPatch } from '@shieldwright/engine/working/patch.ts'
import { expect, test } from 'vitest'
import { adopted, orderWords, partTaken, proposedSteps, stepMoved } from './orderEdits.ts'
import type { FoundOrderView } from './orderView.ts'

const up = { by: ['0 m', '0 m', '1 m'] }
const project = {
  pieces: { crown: { parts: ['A', 'B'] }, head: { parts: ['C'] } },
  steps: {
    S1: { piece: 'crown', moves: [up] },
    S2: { piece: 'head', moves: [up], lift: 'head-out' },
    S3: { piece: 'head', moves: [up], lift: 'head-turn' },
  },
  order: ['S1', 'S2', 'S3'],
}

const after = (patch: Parameters<typeof applyPatch>[1]) => {
  const result = applyPatch(project, patch)
  if ('problems' in result) throw new Error(JSON.stringify(result.problems))
  return result.document as typeof project
}

test('a step is moved one place and no other changes places with a third; at the end it stays', () => {
  const patch = stepMoved(project, 'S1', 1)
  expect(after(patch).order).toEqual(['S2', 'S1', 'S3'])
  expect(orderWords(project, patch, 'S1', 'Crown')).toBe('Crown: step 1 → 2')
  expect(stepMoved(project, 'S3', 1)).toEqual([])
})

test('a part leaves one piece and joins the other', () => {
  expect(after(partTaken(project, 'B', 'crown', 'head')).pieces).toEqual({
    crown: { parts: ['A'] },
    head: { parts: ['C', 'B'] },
  })
})

const found: FoundOrderView = {
  feasible: true,
  steps: [
    { piece: 'head', stays: false, moves: [{ by: ['1 m', '0 m', '0 m'] }], failures: [] },
    { piece: 'crown', stays: false, moves: [up], failures: [] },
  ],
  cost: 1,
  bound: 1,
  proven: true,
  moveSpace: '',
  stuck: [],
  looked: 0,
  adoptedCost: 2,
  newPieces: [],
  apartCost: undefined,
  orders: undefined,
  supports: [],
  others: [],
  prevented: [],
}

test('a proposal uses the steps of the file again; those it has no need of stay behind what they follow', () => {
  const proposed = proposedSteps(project, found)
  expect(proposed.map((p) => [p.step, p.was, p.newMoves])).toEqual([
    ['S2', 1, true],
    ['S1', 0, false],
  ])
  const kept = after(adopted(project, proposed, { keepMoves: true, keepOthers: true }))
  expect(kept.order).toEqual(['S2', 'S3', 'S1'])
  expect(kept.steps.S2.moves).toEqual([up])
  const bare = after(adopted(project, proposed, { keepMoves: false, keepOthers: false }))
  expect(bare.order).toEqual(['S2', 'S1'])
  expect(bare.steps.S2).toEqual({ piece: 'head', lift: 'head-out', moves: [{ by: ['1 m', '0 m', '0 m'] }] })
})

test('pieces lifted as one come into the file as a piece of their own, and their own steps leave the order', () => {
  const joined = { ...found, newPieces: [{ id: 'crown.head', pieces: ['crown', 'head'] }] }
  const steps = [{ piece: 'crown.head', stays: false, moves: [up], failures: [] }]
  const proposed = proposedSteps(project, { ...joined, steps })
  const kept = after(adopted(project, proposed, { keepMoves: true, keepOthers: true }, joined.newPieces))
  expect(kept.order).toEqual(['crown.head-1'])
  expect(kept).toMatchObject({
    pieces: { 'crown.head': { parts: ['A', 'B', 'C'] } },
    steps: { 'crown.head-1': { piece: 'crown.head', moves: [up] } },
  })
})
