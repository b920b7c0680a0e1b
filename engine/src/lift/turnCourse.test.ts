import { expect, test } from 'vitest'
import { mass } from '../mass/index.ts'
import { strip } from '../strip/index.ts'
import { freshMemory } from '../working/memory.ts'
import { lift } from './lift.ts'
import { modelOf, smallProject } from './small.fixture.ts'
import { turnCourse } from './turnCourse.ts'

function stagesOfSmall() {
  const memory = freshMemory()
  const model = modelOf(smallProject(), memory)
  const masses = mass(model, memory)
  const order = strip(model, masses, memory)
  return { model, masses, order, lifts: lift(model, masses, order, memory).lifts }
}

test('a turn degree by degree passes through the stages that the sheet prints', () => {
  const { model, masses, order, lifts } = stagesOfSmall()
  const course = turnCourse(model, masses, order, 'turn')
  const stages = lifts.turn?.turning ?? []
  expect(stages.length).toBeGreaterThan(3)
  for (const stage of stages) {
    const point = course.find((p) => Math.abs(p.angle - stage.angle) < 1e-9)
    expect(point).toMatchObject({ main: stage.main.value, tail: stage.tail.value, apart: stage.apart })
  }
  expect(course.length).toBeGreaterThan(stages.length)
})

test('what does not turn has no course', () => {
  const { model, masses, order } = stagesOfSmall()
  expect(turnCourse(model, masses, order, 'out')).toEqual([])
})
