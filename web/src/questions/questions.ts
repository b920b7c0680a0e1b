import type { Patch } from '@shieldwright/engine/working/patch.ts'
import { routeTo } from '../state.ts'
import type { Facts } from './facts.ts'
import * as ground from './ground.ts'
import { heavierBy } from './heavier.ts'
import * as lift from './lift.ts'
import * as machine from './machine.ts'
import * as paper from './paper.ts'
import * as plan from './plan.ts'

/** Where an answer stands in full: an address of the page, and the heading of the section there. */
export interface Place {
  href: string
  under?: string
}

/** Something that a person of the recovery asks again and again, answered in short from the project as it stands. */
export interface Question {
  id: string
  asks: string
  answer: (facts: Facts) => string
  place: (facts: Facts) => Place
  /** A change that answers it, looked at and not kept. */
  tries?: { what: string; patch: (document: unknown) => Patch }
}

export interface Person {
  name: string
  questions: readonly Question[]
}

const at = (stage: string, under?: string) => (): Place => ({ href: routeTo(stage), ...(under && { under }) })
const SEVEN = 0.07

/** Who asks what; the places are held against the page by the journeys. */
export const PEOPLE: readonly Person[] = [
  {
    name: 'Manager of the recovery',
    questions: [
      {
        id: 'restart',
        asks: 'When do we restart, and how sure is it?',
        answer: plan.restart,
        place: at('project', 'Restart'),
      },
      {
        id: 'drives',
        asks: 'What drives the date?',
        answer: plan.drives,
        place: at('risk', 'What drives the restart'),
      },
      {
        id: 'buys',
        asks: 'What buys a week, and at what price?',
        answer: plan.buys,
        place: at('risk', 'What would buy time'),
      },
      {
        id: 'heavier',
        asks: 'If everything weighs 7 % more, which lifts fail, and what does that do to the date?',
        answer: (facts) => lift.heavier(facts, SEVEN),
        place: at('lift'),
        tries: { what: 'every mass 7 % heavier', patch: (document) => heavierBy(SEVEN, document) },
      },
      {
        id: 'unsigned',
        asks: 'What waits for a permit, a hold or a delivery next?',
        answer: plan.waits,
        place: at('project', 'Holds, permits, deliveries'),
      },
    ],
  },
  {
    name: 'Lift engineer',
    questions: [
      {
        id: 'mass',
        asks: 'What hangs on the hook, and how is it known?',
        answer: lift.onHook,
        place: lift.place('Mass on the hook'),
      },
      {
        id: 'fits',
        asks: 'Does it fit with its tilt, and where is it nearest?',
        answer: lift.nearest,
        place: lift.place('As it hangs'),
      },
      {
        id: 'governs',
        asks: 'What governs: which component is used most?',
        answer: lift.governs,
        place: lift.place('Checks'),
      },
      {
        id: 'wind',
        asks: 'What wind stops it, and how likely is a calm day in its month?',
        answer: lift.wind,
        place: lift.place('Wind, gust at hook height'),
      },
      { id: 'shares', asks: 'What do the hooks share at 37°?', answer: lift.shares, place: lift.turnPlace },
      {
        id: 'weighed',
        asks: 'After the weighing: what has the reading changed?',
        answer: lift.weighed,
        place: at('mass', 'Weighings'),
      },
    ],
  },
  {
    name: 'Machine engineer',
    questions: [
      {
        id: 'order',
        asks: 'What is the shortest order to the bearing and its seals?',
        answer: machine.order,
        place: at('strip', 'Find an order'),
      },
      {
        id: 'blocks',
        asks: 'What is in the way of a piece, and what waits for it?',
        answer: machine.blocks,
        place: at('strip', 'Which piece waits for which'),
      },
      {
        id: 'services',
        asks: 'Which services are cut, and which still hold energy?',
        answer: machine.services,
        place: at('strip', 'Order of taking apart'),
      },
      {
        id: 'added',
        asks: 'What do the changes add, and whose lift do they touch?',
        answer: machine.added,
        place: () => ({ href: routeTo('model', 'changes') }),
      },
      {
        id: 'closes',
        asks: 'Will the joints close again, by survey and temperature?',
        answer: machine.closes,
        place: at('strip', 'Checks'),
      },
    ],
  },
  {
    name: 'Ground engineer',
    questions: [
      {
        id: 'wall',
        asks: 'What loads the wall most, at which step?',
        answer: ground.wall,
        place: ground.place('ground.wall.surcharge'),
      },
      {
        id: 'well',
        asks: 'If a well fails or the pumps stop: how long until it is critical?',
        answer: ground.wells,
        place: ground.place('ground.wells.time'),
      },
      {
        id: 'uplift',
        asks: 'Does the base hold against the water at each stage?',
        answer: ground.uplift,
        place: ground.place('ground.base.uplift', 'ground.slab.uplift'),
      },
      {
        id: 'bays',
        asks: 'Which bay is pressed and tilted most?',
        answer: ground.bays,
        place: at('ground', 'Laydown bays'),
      },
      {
        id: 'readings',
        asks: 'Which readings are near their alert?',
        answer: ground.readings,
        place: ground.place('ground.neighbour.reading'),
      },
    ],
  },
  {
    name: 'Planner',
    questions: [
      {
        id: 'path',
        asks: 'What is the driving path, and what lies within ten days of it?',
        answer: plan.paths,
        place: at('programme', 'What would drive the restart next'),
      },
      {
        id: 'queues',
        asks: 'Where does work wait for the tower, the floor, a crew?',
        answer: plan.queues,
        place: at('programme', 'Activities'),
      },
      {
        id: 'late',
        asks: 'Which delivery comes too late, or nearly?',
        answer: plan.late,
        place: at('programme', 'Deliveries'),
      },
      {
        id: 'shift',
        asks: 'What is the best use of a second shift?',
        answer: plan.secondShift,
        place: at('risk', 'Scenarios side by side'),
      },
      {
        id: 'proven',
        asks: 'Is this plan proved best, or by how much not?',
        answer: plan.proven,
        place: at('programme', 'Restart'),
      },
    ],
  },
  {
    name: 'Superintendent',
    questions: [
      {
        id: 'today',
        asks: 'What goes on today, and what starts next?',
        answer: plan.today,
        place: at('programme', 'Progress'),
      },
      {
        id: 'hoses',
        asks: 'Which hoses and cables come off first?',
        answer: machine.firstServices,
        place: at('strip', 'Order of taking apart'),
      },
      {
        id: 'inBay',
        asks: 'What stands in the bays at the next lift?',
        answer: ground.nextLanding,
        place: at('ground', 'What stands there'),
      },
      {
        id: 'window',
        asks: 'What wind does the next lift bear, and is there a window?',
        answer: lift.nextWind,
        place: lift.nextPlace('Wind, gust at hook height'),
      },
      {
        id: 'clear',
        asks: 'Who must be clear at the next lift, and from when?',
        answer: lift.clear,
        place: lift.nextPlace('The way in time'),
      },
    ],
  },
  {
    name: 'Inspector, owner’s engineer',
    questions: [
      {
        id: 'true',
        asks: 'What was arranged and agreed for a lift, and what is missing?',
        answer: lift.arranged,
        place: lift.place('Class of lift'),
      },
      {
        id: 'clause',
        asks: 'Where does a number come from, by which clause?',
        answer: paper.working,
        place: paper.workingPlace,
      },
      {
        id: 'open',
        asks: 'Which checks are open, and who decides them?',
        answer: paper.open,
        place: at('project', 'Wrong, near, open'),
      },
      {
        id: 'differs',
        asks: 'What has changed since the last revision?',
        answer: paper.changed,
        place: at('project', 'Changed'),
      },
      {
        id: 'records',
        asks: 'Which weld, bolt and isolation records are missing?',
        answer: paper.records,
        place: at('strip', 'Checks'),
      },
    ],
  },
  {
    name: 'Owner, neighbour, insurer',
    questions: [
      { id: 'when', asks: 'When, how sure, and at what cost?', answer: plan.whenAndCost, place: at('risk', 'Restart') },
      { id: 'since', asks: 'What changed, and why?', answer: paper.changed, place: at('project', 'Changed') },
      {
        id: 'limits',
        asks: 'Is the neighbourhood within its limits?',
        answer: ground.readings,
        place: ground.place('ground.neighbour.reading'),
      },
      {
        id: 'due',
        asks: 'Which decisions are due, by when?',
        answer: plan.decisions,
        place: at('project', 'Holds, permits, deliveries'),
      },
      {
        id: 'fails',
        asks: 'What happens to a load when power or a jack fails?',
        answer: lift.failures,
        place: lift.place('The way in time'),
      },
    ],
  },
]
