import { z } from 'zod'
import type { SiUnit } from '../../working/unit.ts'
import { isMoment } from '../moment.ts'
import {
  angle,
  collection,
  date,
  duration,
  expectation,
  id,
  length,
  level,
  mass,
  name,
  note,
  planPoint,
  point,
  quantity,
  ratio,
  said,
  share,
  span,
} from './field.ts'

const stress = (meaning: string) => quantity('Pa', meaning, { least: 0 })
const force = (meaning: string) => quantity('N', meaning, { above: 0 })
const torque = (meaning: string) => quantity('N m', meaning, { least: 0 })

export const shaft = z.strictObject({
  clearDiameter: length('clear inner diameter'),
  collar: level('level of the collar, site z'),
  slabTop: level('top of the base slab, site z'),
  slabThickness: length('base slab'),
  excavation: level('deepest excavation, site z'),
  barrier: length('height of the barrier around the collar'),
  /** Stages of the excavation, from the top down: how deep, and how many wells run by then. */
  stages: z.array(z.strictObject({ to: level('excavated to, site z'), running: z.int().min(0), note })).default([]),
  wall: z.strictObject({
    kind: z.enum(['secant piles', 'slurry panels', 'sprayed', 'segments']),
    pileDiameter: length('pile diameter').optional(),
    piles: z.int().min(3).optional(),
    ringDiameter: length('diameter of the circle of pile centres, or of the middles of panels').optional(),
    toe: level('toe, site z'),
    verticality: ratio('deviation per depth').optional(),
    settingOut: length('setting-out tolerance at the top').optional(),
    strength: stress('characteristic compressive strength of the wall').optional(),
    youngShort: stress('modulus, short term').optional(),
    youngLong: stress('modulus, long term').optional(),
    lining: length('lining thickness').optional(),
    innerTolerance: length('allowance for wall tolerance inside the clear bore').optional(),
    /** Thickness of panels, sprayed concrete or segments; of secant piles it follows from diameter and spacing. */
    thickness: length('wall thickness').optional(),
    outOfRound: length('two-lobed deviation of the ring on the radius, tolerated or measured').optional(),
    /** Of panels: overcut of neighbours into each other, or what a water stop closes. */
    jointOverlap: length('by which neighbouring panels may part along the wall and still be closed').optional(),
    /** Secant piles or panels as surveyed, by their number: centre at the collar, at a lower level, and at levels between, from the top down. */
    asBuilt: collection(
      z.strictObject({
        head: planPoint('site, centre at the collar'),
        low: planPoint('site, centre at the lower level'),
        lowAt: level('lower level, site z'),
        between: z
          .array(z.strictObject({ at: planPoint('site, centre at that level'), z: level('level, site z') }))
          .default([]),
      }),
    ),
    /** Chance that a joint of secant piles stands open at the toe while not every pile is surveyed: how the tolerances are read. */
    openJoint: z
      .strictObject({
        deviations: quantity('1', 'standard deviations that a tolerance stands for, such as 2', {
          above: 0,
        }).optional(),
        accepted: share('chance of any joint open that is accepted, with what is done about one').optional(),
      })
      .optional(),
    surcharge: stress('lateral pressure from loads at the surface that the wall was designed for').optional(),
  }),
  /** Fill placed in the shaft before the wells are stopped. */
  fill: z
    .strictObject({
      top: level('top, site z'),
      unitWeight: quantity('N/m3', 'unit weight', { above: 0 }),
      /** Wells are stopped in stages, each once the fill has come so high: how many still run. */
      stops: z
        .array(z.strictObject({ top: level('fill has come to, site z'), running: z.int().min(0), note }))
        .default([]),
      /** What stands in it and takes up room, such as the shield. */
      displaced: quantity('m3', 'volume that is not filled', { least: 0 }).optional(),
      pumped: quantity('m3', 'volume pumped, as measured', { least: 0 }).optional(),
      band: ratio('band about the computed volume that counts as full').optional(),
    })
    .optional(),
  cappingBeam: z.strictObject({ width: length('width'), depth: length('depth') }).optional(),
  eyes: collection(
    z.strictObject({
      centre: level('level of the centre, site z'),
      diameter: length('diameter'),
      side: z.enum(['-x', '+x']),
      decided: z.string().optional(),
      seal: z
        .strictObject({
          rated: stress('pressure the seal is rated for, by its maker'),
          factor: ratio('factor on the water pressure that the maker asks for'),
          /** Who of the maker says that its lips pass the joints of the shield. */
          passes: z.string().optional(),
        })
        .optional(),
      note,
    }),
  ),
  /** Things fixed in the shaft that a piece may strike. */
  obstructions: collection(
    z.strictObject({
      what: z.string(),
      x: span('site'),
      y: span('site'),
      z: span('site'),
      round: z.boolean().default(false),
      removedBefore: id.optional(),
      note,
    }),
  ),
})

const startThrust = force('most that it pushes with at the start, as limited in the plan')

/** Bars across a place where concrete would split. */
const bars = {
  bar: length('diameter of a bar').optional(),
  yield: stress('characteristic yield strength of the bars').optional(),
  /** Who designed them, with their anchorage on both sides. */
  designed: z.string().optional(),
}

const breakIn = z.strictObject({
  tools: z.int().min(1).optional(),
  tool: quantity('N', 'push of one tool that breaks the wall at the eye; zero where the eye is broken out before', {
    least: 0,
  }).optional(),
  drag: ratio('drag of a tool along its track as a share of its push').optional(),
  radius: length('mean radius of the tracks of the tools').optional(),
  torque: torque(
    'most that the drive may turn with as it is, by its maker; zero where the head does not turn',
  ).optional(),
  inGround: length('length of shield in the ground as the head meets the wall').optional(),
  holds: stress('friction on the skin that may be counted on to keep it from rolling: its least').optional(),
  wall: force('most that the last of the wall bears on its face before it breaks out into the shaft').optional(),
  /** Who says so of the wall. */
  signed: z.string().optional(),
  note,
})

/** How the shield is kept from rolling on its bed as it starts. */
const againstRoll = {
  torque: torque('most that the head turns with at the start, as limited in the plan').optional(),
  holds: ratio('friction between shell and bed that may be counted on against roll: its least').optional(),
  stops: torque('moment that welded stops or struts hold against roll, with its factor in it').optional(),
}

export const cradle = z.strictObject({
  along: span('site x'),
  radius: length('radius of the bed').optional(),
  contactHalfAngle: angle('half angle of the contact arc'),
  strength: stress('characteristic compressive strength of the concrete'),
  reinforced: z.boolean().default(true),
  thickness: length('at the invert').optional(),
  /** Resists in the drive-in: its greatest. */
  friction: ratio('coefficient of friction in the drive-in').optional(),
  holds: ratio(
    'friction between shell and cradle that may be counted on to keep what remains from rolling: its least',
  ).optional(),
  /** Bars across the invert, from one side of the cradle to the other. */
  tied: z
    .strictObject({
      ...bars,
      spacing: quantity('m', 'from bar to bar along the cradle', { above: 0 }).optional(),
      layers: z.int().min(1).optional(),
    })
    .optional(),
  /** Block that the thrust of the drive-in must not push away. */
  block: z
    .strictObject({ mass: mass('own mass'), friction: ratio('coefficient of friction under the block') })
    .optional(),
  driveIn: z
    .strictObject({
      thrust: quantity('N', 'thrust available without torque at the head', { least: 0 }),
      skin: stress('friction on the skin still in the ground'),
      inGround: length('length of shield still in the ground at the worst moment'),
      face: stress('pressure on the face until it is holed through'),
      roll: quantity('rad', 'largest roll at which it may come to rest, to either side, by its maker', {
        least: 0,
      }).optional(),
      /** The head against the wall at the eye, until it is through. */
      breakIn: breakIn.optional(),
    })
    .optional(),
  /** Points at which the shield is raised off its bed or set level, all together. */
  jacking: z
    .strictObject({
      points: collection(z.strictObject({ at: planPoint('site, middle of the jack'), note })),
      rated: force('rated load of one jack, by its maker').optional(),
      shell: force('most that the shield bears at one point, by its maker').optional(),
      pad: planPoint('plate on the concrete under a jack, along x and y').optional(),
      /** Bars below a plate, across the way in which the load spreads. */
      links: z
        .strictObject({
          ...bars,
          count: z.int().min(1).describe('bars or legs that cross one way, the fewer of both ways').optional(),
        })
        .optional(),
      /** Jack, packing and shell together, as tested or as their makers say. */
      stiffness: quantity('N/m', 'load that one point takes for each metre that it is raised past the others', {
        above: 0,
      }).optional(),
      apart: length('most by which one point may run ahead of the others: synchronous tolerance').optional(),
      /** Step of the order before which it is done; absent, with the whole machine in the shaft. */
      before: id.optional(),
      note,
    })
    .optional(),
  /** Last rings of the tunnel behind the machine, once no thrust presses their joints together. */
  lastRings: z
    .strictObject({
      diameter: length('outer diameter of the rings'),
      centre: level('level of their centre, site z'),
      gasketDepth: length('from the outside of the ring to the line of the gasket'),
      gasket: quantity('N/m', 'force of the gasket per metre at its working gap, by its maker', {
        least: 0,
      }).optional(),
      /** Bolts or dowels that stay in the joint; counted only where they are given. */
      bolts: z
        .strictObject({ count: z.int().min(1), load: force('working load of one bolt or dowel, along the tunnel') })
        .optional(),
      /** Bracing along the tunnel that holds the rings together. */
      ties: z
        .strictObject({
          count: z.int().min(1),
          load: force('working load of one tie with its anchorages'),
          stiffness: force('EA of one tie'),
          between: length('from anchorage to anchorage over one joint'),
          /** Who designed them, with what is anchored in the segments. */
          designed: z.string().optional(),
        })
        .optional(),
      /** Chance that a joint opens as the thrust is let go, from how far force and hold may be off. */
      openJoint: z
        .strictObject({
          joints: z.int().min(1).describe('joints that are let go').optional(),
          force: quantity('1', 'standard deviation of the force that opens a joint, as a share of it', {
            above: 0,
          }).optional(),
          held: quantity('1', 'standard deviation of what holds it closed, as a share of it', { above: 0 }).optional(),
          accepted: share('chance of any joint open that is accepted').optional(),
        })
        .optional(),
      opening: length('further opening at which the gasket still holds the water, by its maker').optional(),
      note,
    })
    .optional(),
  /** What the machine pushes on as it leaves the shaft, until the rings behind it carry. */
  restart: z
    .discriminatedUnion('on', [
      z.strictObject({
        on: z.literal('frame'),
        thrust: startThrust,
        ...againstRoll,
        load: force('working load of the frame').optional(),
        feet: z.int().min(1).optional(),
        foot: planPoint('plate of one foot on the wall of the shaft, width and height').optional(),
        /** Who signed the frame, and the wall that it leans on. */
        signed: z.string().optional(),
        note,
      }),
      z.strictObject({
        on: z.literal('rings'),
        thrust: startThrust,
        ...againstRoll,
        length: length('of grouted tunnel that is counted, behind rings or struts that reach it').optional(),
        diameter: length('outer diameter of the rings'),
        friction: stress('between grout and ground that may be counted, with its factor in it').optional(),
        note,
      }),
    ])
    .optional(),
  note,
})

/** Lowest and highest of a value. */
const ends = <U extends SiUnit>(unit: U, meaning: string) =>
  z.tuple([quantity(unit, `lowest ${meaning}`), quantity(unit, `highest ${meaning}`)]).optional()

export const layer = z.strictObject({
  name,
  top: level('site z'),
  bottom: level('site z'),
  unitWeight: quantity('N/m3', 'saturated or bulk unit weight', { above: 0 }),
  phi: angle('friction angle').optional(),
  cohesion: stress('effective cohesion').optional(),
  undrained: stress('undrained strength at the top').optional(),
  undrainedGradient: quantity('N/m3', 'rise of undrained strength with depth').optional(),
  young: stress('modulus').optional(),
  k0: ratio('earth pressure coefficient at rest').optional(),
  permeability: quantity('m/s', 'permeability').optional(),
  poisson: ratio("Poisson's ratio").optional(),
  /** Lowest and highest that the ground engineer holds possible; what stands above is the best estimate. */
  range: z
    .strictObject({
      unitWeight: ends('N/m3', 'unit weight'),
      phi: ends('rad', 'friction angle'),
      cohesion: ends('Pa', 'effective cohesion'),
      undrained: ends('Pa', 'undrained strength at the top'),
      young: ends('Pa', 'modulus'),
      k0: ends('1', 'earth pressure coefficient at rest'),
      permeability: ends('m/s', 'permeability'),
    })
    .optional(),
  note,
})

export const water = z.strictObject({
  layers: z.array(id).min(1),
  head: level('head, site z'),
  drawnDown: level('head when drawn down, site z').optional(),
  /** Lowest and highest that the ground engineer holds possible. */
  range: z
    .strictObject({ head: ends('m', 'head, site z'), drawnDown: ends('m', 'head when drawn down, site z') })
    .optional(),
  tide: length('half range of the tide').optional(),
  /** Of water that the wall encloses: how it is let out before it is dug towards, and who says so. */
  letOut: z.string().optional(),
  wells: z
    .strictObject({
      installed: z.int().min(0),
      needed: z.int().min(0),
      recovery: duration('time constant of the head after the pumps stop, from the pumping test').optional(),
      response: duration('time to have the standby pumping').optional(),
    })
    .optional(),
  note,
})

export const bay = z.strictObject({
  name: name.optional(),
  centre: planPoint('site'),
  size: planPoint('along x and y'),
  level: level('top of the bay, site z'),
  allowable: stress('allowable pressure, decided by the ground engineer'),
  construction: z.string().optional(),
  /** Share of a piece's plan outline that bears on the packing. */
  bearingShare: ratio('share of the plan outline that bears').optional(),
  settlement: length('settlement that the work on the bay allows').optional(),
  tilt: angle('tilt that the work on the bay allows').optional(),
  piles: z
    .strictObject({
      count: z.int().min(1),
      workingLoad: quantity('N', 'working load of one pile', { above: 0 }),
      toe: level('toe, site z'),
    })
    .optional(),
  /** Stockpiles, plant, packing and the like that stand on it beside pieces, each as the box about it. */
  stored: collection(
    z.strictObject({
      what: name,
      centre: planPoint('site'),
      size: planPoint('along x and y'),
      height: length('over the bay'),
      /** What it presses with; while it is not given, what it does to bay and wall is open. */
      mass: mass('its mass, with what is in it').optional(),
      /** Lifts before which it is cleared away. */
      clearedFor: z.array(id).default([]),
      note,
    }),
  ),
  note,
})

const readAt = z.string().refine(isMoment, {
  error: () => expectation('the moment of a reading: a day, or local time on it (ISO 8601)', '2032-10-04'),
})

/** An instrument, its levels and its readings, all in one unit. Levels that fall from alert to alarm watch for a fall. */
const reads = <M extends string, U extends SiUnit>(measures: M, unit: U) =>
  z.strictObject({
    what: name,
    measures: z.literal(measures),
    /** Where it stands. */
    at: point('site').optional(),
    alert: quantity(unit, 'alert level'),
    action: quantity(unit, 'action level'),
    alarm: quantity(unit, 'alarm level'),
    /** By the moment at which each was read, in the time zone of the programme. */
    readings: z.record(readAt, quantity(unit, 'reading')).default({}),
    /** Longest time from one reading to the next. */
    every: duration('from one reading to the next').optional(),
    /** The same while one of these steps is under way. */
    inSteps: z.strictObject({ steps: z.array(id).min(1), every: duration('from one reading to the next') }).optional(),
    /** Time that what the plan demands takes: the trend is drawn that far ahead. */
    notice: duration('from seeing it come to having it stopped').optional(),
    /** What the plan says must be done once a level is reached, and by whom. */
    plan: z
      .strictObject({ alert: z.string().optional(), action: z.string().optional(), alarm: z.string().optional() })
      .default({}),
    note,
  })

/** What instruments measure. */
export const instrument = z.discriminatedUnion('measures', [
  reads('settlement', 'm'),
  reads('movement', 'm'),
  reads('convergence', 'm'),
  reads('slope', '1'),
  reads('head', 'm'),
  reads('pressure', 'Pa'),
  reads('inflow', 'm3/s'),
])

export const ground = z.strictObject({
  surface: level('site z'),
  layers: collection(layer),
  water: collection(water),
  /** Unit weight of water used throughout. */
  waterWeight: quantity('N/m3', 'unit weight of water').optional(),
  platform: z
    .strictObject({ thickness: length('thickness'), allowable: stress('allowable pressure'), y: span('site'), note })
    .optional(),
  /** Prepared standings of cranes, each with its own allowable pressure. */
  pads: collection(
    z.strictObject({
      centre: planPoint('site'),
      size: planPoint('along x and y'),
      allowable: stress('allowable pressure, decided by the ground engineer'),
      note,
    }),
  ),
  /** For traffic, storage and snow that nothing else of the file names; decided by the ground engineer. */
  surcharge: stress('even load on all the ground behind the wall, such as 10 kPa').optional(),
  /** State in which the ground presses on the wall; decided by the ground engineer. */
  earthPressure: z.enum(['at rest', 'active']).optional(),
  /** Working stress or partial factors, chosen for the project; decided by the ground engineer. */
  factors: z
    .strictObject({
      upliftStabilising: ratio('on stabilising permanent actions, such as 0.90'),
      upliftDestabilising: ratio('on destabilising permanent actions, such as 1.00'),
      ringConcrete: ratio('partial factor on concrete strength, such as 1.5'),
      reinforcement: ratio('partial factor on the strength of reinforcement, such as 1.15').optional(),
      ringLoad: ratio('partial factor on ring load, such as 1.35'),
      buckling: ratio('required factor on the buckling pressure of the ring').optional(),
      heave: ratio('required factor against heave of the base').optional(),
      bearing: ratio('required factor on bearing resistance').optional(),
      gradient: ratio('required factor on the upward hydraulic gradient').optional(),
      equilibrium: ratio('required factor against uplift of a leg and against sliding in a storm').optional(),
      decidedBy: z.string().optional(),
      source: z.string().optional(),
    })
    .optional(),
  /** Decisions that belong to a licensed person, by their letter and number. */
  decisions: collection(
    z.strictObject({
      what: z.string(),
      decidedBy: z.string().optional(),
      on: z.string().optional(),
      value: z.string().optional(),
      /** Why it no longer holds, and who says so. */
      withdrawn: z.string().optional(),
    }),
  ),
  instruments: collection(instrument),
  /** Plant, stockpiles, cabins and the like on the open ground. */
  plant: collection(
    z.strictObject({
      what: name,
      centre: planPoint('site'),
      size: planPoint('along x and y'),
      mass: mass('its mass, with what is in it'),
      /** Steps of the order at which it stands there; absent, all of them. */
      during: z.array(id).min(1).optional(),
      note,
    }),
  ),
  /** Ground treated so that the machine can leave or enter it beside the shaft. */
  treatments: collection(
    z.strictObject({
      what: z.string(),
      along: span('site x'),
      eye: id.optional(),
      cover: length('treated ground that must cover the face at the sides').optional(),
      strength: stress('strength').optional(),
      /** Who accepted it, on which probe holes and cores. */
      accepted: z.string().optional(),
      note,
    }),
  ),
})

/** Levels that the project agreed for a neighbour, and the last reading. */
const watched = <U extends z.ZodType>(reading: (meaning: string) => U) =>
  z
    .strictObject({
      alert: reading('alert level'),
      action: reading('action level'),
      alarm: reading('alarm level'),
      reading: reading('last reading').optional(),
      on: date.optional(),
      /** What has been set going above the alert level, and by whom. */
      response: z.string().optional(),
    })
    .optional()

export const utility = z.strictObject({
  what: z.string(),
  settlement: watched(length),
  slope: watched(ratio),
  line: z.array(planPoint('site')).optional(),
  at: planPoint('site').optional(),
  height: length('above ground').optional(),
  axis: level('site z').optional(),
  /** Of a buried service, a vault or a void: what its owner allows at its axis. */
  allowable: stress('rise of vertical stress at the axis').optional(),
  clearance: length('clearance that must be kept').optional(),
  voltage: quantity('V', 'of an overhead line, between phases', { above: 0 }).optional(),
  /** Of a road: what its designer lets on it. */
  maxVehicle: mass('heaviest vehicle').optional(),
  maxLine: mass('heaviest axle line').optional(),
  bears: stress('pressure under a trailer that the road bears, decided by the ground engineer').optional(),
  /** Who has it de-energised and visibly earthed whenever a crane works beside it. */
  deadOnLifts: said.optional(),
  note,
})

export const transport = z.strictObject({
  kind: z.string(),
  payload: mass('payload'),
  selfMass: mass('own mass'),
  platform: planPoint('length and width'),
  lines: z.int().min(1).optional(),
  at: point('where it is loaded').optional(),
  takes: z.array(id).default([]),
  to: z.array(id).default([]),
  maxSlope: ratio('slope').optional(),
})

/** Wind at the site by month: Weibull hourly means, persistence from hour to hour, gusts. */
export const climate = z.strictObject({
  station: z.string(),
  averaging: duration('averaging time of the speeds'),
  height: length('height of the reading'),
  latitude: angle('of the site, north positive').optional(),
  roughness: length('roughness length').optional(),
  gustFactor: ratio('gust of 3 s over the mean').optional(),
  persistence: ratio('correlation from hour to hour'),
  diurnal: z
    .strictObject({
      calmest: z.int().min(0).max(23),
      windiest: z.int().min(0).max(23),
      amplitude: ratio('share of the mean'),
    })
    .optional(),
  months: z
    .array(
      z.strictObject({
        scale: quantity('m/s', 'Weibull scale', { above: 0 }),
        shape: ratio('Weibull shape'),
        frostDays: z.number().min(0).max(31).optional(),
        fogHours: z.number().min(0).max(744).optional(),
      }),
    )
    .length(12),
})
