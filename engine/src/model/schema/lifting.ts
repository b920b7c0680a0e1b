import { z } from 'zod'
import { attached } from './attached.ts'
import {
  angle,
  collection,
  date,
  direction,
  duration,
  expectation,
  factor,
  id,
  length,
  level,
  mass,
  moment,
  name,
  note,
  ordered,
  planPoint,
  point,
  quantity,
  ratio,
  said,
  share,
  span,
  speed,
} from './field.ts'
import { liftingPoint } from './machine.ts'

/** A beam as plates: what its strength is worked from. */
export const beam = z.strictObject({
  section: z.strictObject({
    kind: z.enum(['I-section', 'box']),
    depth: length('whole depth'),
    width: length('of a flange'),
    flange: length('thickness of a flange'),
    web: length('thickness of one web'),
    made: z.enum(['rolled', 'welded']).default('welded'),
  }),
  yield: quantity('Pa', 'yield strength', { above: 0 }),
  /** Otherwise all of it between its ends. */
  unbraced: length('between points held against turning sideways').optional(),
  /** Stiff length under a force at one point. */
  bearing: length('along the beam under a force at one point').optional(),
  sag: ratio('largest sag as a share of its span or arm').optional(),
  above: length('pins of what holds it, off its axis').optional(),
  below: length('pins of what hangs from it, off its axis').optional(),
  /** Of gear bolted to the piece: its arms reach out over the bolts. */
  arm: z
    .strictObject({
      length: length('from the lug to the first bolts'),
      lies: z.enum(['along the lug', 'across the lug']),
    })
    .optional(),
})

/** Bolts between a frame and the piece that it is bolted to: one group about its middle. */
export const frameBolts = z.strictObject({
  at: point('middle of the group, machine frame'),
  axis: direction('of the bolts, from the piece to the frame, machine frame'),
  layout: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('circle'), count: z.int().min(3).max(400), diameter: length('of the circle') }),
    z.strictObject({
      kind: z.literal('grid'),
      /** Along the first direction of the joint's plane and along the second, which is upright where the bolts lie level. */
      counts: z.tuple([z.int().min(1).max(60), z.int().min(1).max(60)]),
      pitches: planPoint('distance of two rows: along the one direction and the other'),
    }),
  ]),
  thread: z.string(),
  grade: z.string(),
  preload: quantity('N', 'preload of one bolt', { above: 0 }).optional(),
  friction: ratio('friction of the faces').optional(),
  hole: length('diameter of the holes; otherwise by the size').optional(),
  /** Flange of the frame. */
  plate: length('thickness of the flange').optional(),
  yield: quantity('Pa', 'yield strength of the flange', { above: 0 }).optional(),
  ultimate: quantity('Pa', 'tensile strength of the flange', { above: 0 }).optional(),
  edge: length('from the centre of a hole to the edge of the flange').optional(),
  web: length('from the centre of a hole to the web').optional(),
  row: length('length of flange that goes with one row of two bolts').optional(),
})

/** What a rating means; a field left out is unknown, and what rests on it is open. */
const ratingBasis = z.strictObject({
  dynamics: z.enum(['included in the rating', 'not included']).optional(),
  point: z.enum(['below the block', 'above the block']).optional(),
  configuration: z.string().optional(),
  source: z.string().optional(),
})

const chartRows = z.array(z.strictObject({ radius: length('radius'), rated: mass('rated load at that radius') }))

/** How the maker lets a chart be read between its rows; never beyond them. */
const between = z.enum(['next larger radius', 'linear'])

/** One chart of a crane, for one boom, counterweight and sector: what the set-up states, each chart must name, or it is not read. */
const craneChart = z.strictObject({
  boom: length('boom').optional(),
  counterweight: mass('counterweight').optional(),
  /** Slews it holds for, from straight ahead of the carrier, to the left. */
  sector: z.tuple([angle('from, straight ahead is 0'), angle('to')]).optional(),
  between: between.default('next larger radius'),
  rows: chartRows,
  source: z.string().optional(),
})

/** What is fitted to a crane, and through which slews it passes in a lift. */
const setUp = z.strictObject({
  boom: length('boom').optional(),
  counterweight: mass('counterweight').optional(),
  slew: z.tuple([angle('from, straight ahead is 0'), angle('to, to the left')]).optional(),
})

/** Strand units or winches that hold one hook together. */
const units = z.strictObject({
  kind: z.enum(['strand unit', 'winch']),
  /** Where each line leaves, from the line of the hook, along site axes. */
  at: collection(planPoint('from the hook')),
  rated: mass('rated load of one'),
  stiffness: quantity('N', 'axial stiffness EA of the line of one', { above: 0 }).optional(),
  difference: length('largest difference of stroke between any two that the control allows').optional(),
  /** Sets of grips or brakes of one unit, each of which holds its whole load alone. */
  anchors: z.int().min(0).optional(),
  strands: z.strictObject({ fitted: z.int().min(1), rated: mass('working load of one strand') }).optional(),
  stroke: length('one stroke').optional(),
  strokeSpeed: speed('within a stroke').optional(),
  regrip: duration('from the end of one stroke to the start of the next').optional(),
  reeving: z
    .strictObject({
      parts: z.int().min(1),
      loss: quantity('1', 'pull after a sheave over pull before it', { above: 1 }),
      pull: quantity('N', 'line pull in the first layer'),
      barrel: length('diameter of the barrel'),
      rope: length('diameter of the rope'),
      layer: z.int().min(1),
    })
    .optional(),
})

export const hook = z.strictObject({
  name,
  /** One rating for the whole travel, or a chart by radius; of both the lower counts. */
  rated: mass('rated load').optional(),
  chart: chartRows.optional(),
  /** How the maker lets that chart be read between its rows. */
  between: between.optional(),
  /** Charts by boom, counterweight and sector, where there are several. */
  charts: collection(craneChart),
  /** What the chart counts as load beside block and rigging: a jib stowed, an auxiliary head. */
  deductions: collection(z.strictObject({ what: z.string(), mass: mass('as the chart states it') })),
  /** Rope between head and block, which counts where the rating is that above the block. */
  rope: z.strictObject({ parts: z.int().min(1), perLength: quantity('kg/m', 'mass per length') }).optional(),
  basis: ratingBasis.default({}),
  block: mass('block and links below the head').optional(),
  /** Of a crane: the block as it hangs, from the hook upward, all round as wide as its widest side. */
  blockSize: z
    .strictObject({ width: length('widest side in plan'), height: length('from the hook to its top') })
    .optional(),
  highest: level('highest hook position, site z').optional(),
  lowest: level('lowest hook position, site z').optional(),
  /** Where the hoist lines leave the machine: they lean about this level. */
  head: level('top of the hoist lines, site z').optional(),
  speed: speed('hoist speed').optional(),
  /** Where it lowers at another speed than it hoists. */
  lowering: speed('speed of lowering').optional(),
  /** Of the hoist line, all its falls together: shares near upright follow the heights of the hooks by it. */
  stiffness: quantity('N', 'axial stiffness EA of the hoist line').optional(),
  travel: ordered('of the hook across, site x').optional(),
  traverse: speed('of the hook across, site x, with load').optional(),
  units: units.optional(),
  accuracy: ratio('accuracy of the load reading as a share').optional(),
})

export const system = z.strictObject({
  name,
  kind: z.enum(['lift tower', 'crawler crane', 'mobile crane', 'gantry', 'hoist']),
  hooks: collection(hook),
  /** Share of the rating that the plan may use; 1 where the project sets nothing lower. */
  planned: share('share of the rating a planned lift may use').optional(),
  tandem: share('share when two machines or hooks share a load').optional(),
  bothHooks: z
    .strictObject({ rated: mass('both hooks together'), leastDistance: length('between the hooks') })
    .optional(),
  dynamicFactor: factor('hoist factor the maker states').optional(),
  selfMass: mass('own mass').optional(),
  header: mass('header and trolleys').optional(),
  /** Header beams between the rails, alike and side by side; their own mass and the trolleys are in `header`. */
  headerBeam: z
    .strictObject({
      beam,
      count: z.int().min(1).max(8),
      trolley: mass('trolley, strand units and what else travels with a hook').optional(),
      factor: factor('partial factor on the loads of the tower under European rules').optional(),
    })
    .optional(),
  rails: span('site x of the two rails').optional(),
  runway: ordered('site y of the runway').optional(),
  legs: collection(z.strictObject({ x: level('site x'), offset: level('along the runway from the hook line') })),
  legWidth: length('of one leg of a tower or gantry, in plan').optional(),
  /** Of a tower or gantry: what carries each leg, and what the maker rates it for. */
  underLeg: z
    .strictObject({ wheels: z.int().min(1), wheelLoad: quantity('N', 'largest load of one wheel', { above: 0 }) })
    .optional(),
  standings: z.array(planPoint('site')).default([]),
  /** Of the carrier at each of its standings, in their order; absent, whatever it bears on is judged at the worst of all headings. */
  headings: z.array(angle('straight ahead of the carrier, from site x to the left')).default([]),
  tracks: z
    .strictObject({
      length: length('bearing length'),
      width: length('width of one'),
      gauge: length('between centres'),
      mat: planPoint('size of the mats under one track: along it and across').optional(),
    })
    .optional(),
  /** What is fitted, where a lift does not say otherwise. */
  setUp: setUp.optional(),
  /** Of a crane in working order, boom and counterweight included. */
  ownOffset: quantity('m', 'own centre of gravity ahead of the slewing centre; behind it is negative').optional(),
  /** Height of one rail or end above the other that the maker allows, and the last survey. */
  level: z
    .strictObject({
      limit: length('largest difference'),
      reading: length('as surveyed').optional(),
      on: date.optional(),
    })
    .optional(),
  /** Wind on the machine itself. */
  sail: z
    .strictObject({
      area: quantity('m2', 'area'),
      drag: ratio('drag coefficient'),
      height: length('centre above rail'),
    })
    .optional(),
  outriggers: z
    .strictObject({
      base: planPoint('between floats'),
      mat: planPoint('size of a mat'),
      float: length('width of a float on its mat').optional(),
    })
    .optional(),
  /** Mats under tracks or floats, as their supplier says. */
  mats: z
    .strictObject({
      thickness: length('thickness'),
      bending: quantity('Pa', 'bending stress that they may take', { above: 0 }),
      shear: quantity('Pa', 'shear stress that they may take', { above: 0 }),
      note,
    })
    .optional(),
  horizontalShare: ratio('horizontal load in travel as a share').optional(),
  travelSpeed: speed('travel along the runway with load').optional(),
  slewSpeed: quantity('rad/s', 'of slewing with load', { above: 0 }).optional(),
  slewStart: duration('time from rest to the speed of slewing, with load').optional(),
  tailRadius: length('swept by the counterweight as it slews').optional(),
  luffSpeed: speed('change of the radius with load').optional(),
  /** Of a crane, as its maker's drawings give it; how long the boom is stands in the set-up. */
  boom: z
    .strictObject({
      ahead: level('pin of the boom ahead of the slewing centre; behind it is negative').optional(),
      level: level('pin of the boom, site z').optional(),
      depth: length('of the boom in the plane of the load, jib and ropes along it included').optional(),
      width: length('of the boom across that plane').optional(),
    })
    .optional(),
  /** Where it is while other machines lift: a boom of theirs is held apart from it. */
  parked: z
    .strictObject({
      /** Not on the site, or taken down. */
      away: z.boolean().default(false),
      along: level('of the hook line of a tower or gantry along its runway, site y').optional(),
      /** Of a crane: the place of its standings, counted from 0; absent where it has one only. */
      standing: z.int().min(0).optional(),
      over: planPoint('what its hook rests over, site').optional(),
    })
    .optional(),
  /** When it stops of itself. */
  standby: z
    .strictObject({
      /** Brakes, wedges or locks hold the load without power. */
      holds: z.boolean().optional(),
      power: duration('until it moves again on standby power').optional(),
      unit: duration('until a failed jack, winch or drive is replaced or worked round').optional(),
    })
    .optional(),
  wind: z
    .strictObject({
      /** What its limits mean: a gust of about 3 s or a mean of 10 min, read at the hook or boom head, or at 10 m. */
      read: z.strictObject({ as: z.enum(['gust', 'mean']), at: z.enum(['hook', '10 m']) }).optional(),
      service: speed('limit in service'),
      travel: speed('limit when travelling with load').optional(),
      outOfService: speed('limit out of service').optional(),
      /** Sail area per mass the chart allows for, with its drag coefficient. */
      referenceArea: quantity('m2/kg', 'reference sail area per mass').optional(),
      drag: ratio('drag coefficient of the reference').optional(),
    })
    .optional(),
  /** Of a tower or gantry that stays where it stands through a storm: what holds it there. */
  storm: z
    .strictObject({
      friction: ratio(
        'friction that may be counted between wheel and rail or foot and bearing, wet, by its maker',
      ).optional(),
      held: share(
        'share of its weight on wheels that brakes, wedges or clamps keep from turning, alike under every leg; 1 on feet',
      ).optional(),
      across: quantity('N', 'most that flanges or guides of all wheels hold across the runway; zero on feet', {
        least: 0,
      }).optional(),
      /** Pins, struts or ties that it is moored to, counted once somebody has designed them. */
      moorings: z
        .strictObject({
          along: quantity('N', 'working load along the runway of all that act together', { least: 0 }),
          down: quantity('N', 'working load of what ties down one leg', { least: 0 }),
          /** Who designed them, with what they are anchored in. */
          designed: said.optional(),
        })
        .optional(),
      note,
    })
    .optional(),
  foundation: z
    .strictObject({
      pileWorkingLoad: quantity('N', 'working load of one pile'),
      pilesUnderLeg: z.number().optional(),
      /** Loads reach the ground along the piles: they press on the wall from about two thirds of their depth. */
      toe: level('toe of the piles, site z').optional(),
      /** What carries one leg, seen from above: the settlement under it is open without. */
      plan: planPoint('plan of the piles or the footing under one leg, along x and y').optional(),
      kind: z.string(),
    })
    .optional(),
  tested: z
    .strictObject({
      on: date.optional(),
      factor: quantity('1', 'of the rating, 1.25 for 125 %', { least: 0, most: 3 }),
      until: date.optional(),
    })
    .optional(),
  /** Last erection, move, repair or change of what bears: a load test of before says nothing of what stands now. */
  changed: z.strictObject({ on: date, what: said }).optional(),
  forPersons: z.boolean().default(false),
  note,
})

/** Spreaders, frames and cradles between hook and piece. */
export const gear = z.strictObject({
  name,
  kind: z.enum(['spreader', 'turning frame', 'cradle', 'cross']),
  mass: mass('own mass'),
  rated: mass('rated load').optional(),
  length: length('between its end points').optional(),
  cog: point('machine frame, where it is bolted to the piece').optional(),
  boltedTo: z.array(id).default([]),
  /** Load test before its first use, on all of it with its lugs. */
  proof: z
    .strictObject({ factor: quantity('1', 'of its rating, 1.5 for 150 %', { least: 0, most: 3 }), on: date })
    .optional(),
  /** Of its last thorough examination. */
  certificateUntil: date.optional(),
  points: collection(liftingPoint),
  /** Without it the strength of a spreader, cross or frame stays open. */
  beam: beam.optional(),
  /** Of gear bolted to the piece; without it the bolts stay open. */
  bolts: frameBolts.optional(),
})

/** Standards that ratings of rigging follow. */
export const riggingRules = z.enum(['European', 'US'])

/** What is on hand to hang things with. */
export const stockItem = z.strictObject({
  kind: z.enum([
    'wire rope sling',
    'wire rope grommet',
    'chain sling',
    'round sling',
    'web sling',
    'shackle',
    'level link',
    'tag line',
    'hook',
    'swivel',
    'link',
    'pin',
  ]),
  name: name.optional(),
  quantity: z.int().min(0),
  length: length('working length').optional(),
  rated: mass('rated load in straight lift, one piece').optional(),
  mass: mass('of one'),
  stiffness: quantity('N', 'axial stiffness EA of one leg').optional(),
  tolerance: ratio('length tolerance as a share').optional(),
  designFactor: ratio('breaking over rated load').optional(),
  pin: length('pin diameter').optional(),
  body: length('body diameter of rope or chain').optional(),
  /** Pin over body diameter that the rating assumes; a tighter bend lowers it. */
  ratedBend: ratio('D/d that the rating assumes').optional(),
  /** Of a wire rope sling: its eyes bend over their thimbles, whatever the pin. */
  thimbles: z.boolean().optional(),
  stroke: length('of a level link').optional(),
  certificateUntil: date.optional(),
  /** Family of standards that the rating on the tag follows: factors of the two are not mixed. */
  rules: riggingRules.optional(),
  /** Of a wire rope: fibre burns out of a hot rope first. */
  core: z.enum(['fibre', 'steel']).optional(),
  jaw: length('inside width of the jaw of a shackle').optional(),
  bow: length('diameter of the bow of a shackle: what a sling bends over').optional(),
})

const leg = z.strictObject({
  item: id,
  /** Lifting point of the piece or of gear bolted to it. */
  to: id,
  /** Node of the arrangement above it; absent, the hook. */
  from: id.optional(),
  /** Taken when a level link lengthens or shortens the leg so that the piece hangs as installed. */
  link: id.optional(),
  /** Falls side by side over this leg, such as 2 for a doubled grommet. */
  parts: z.int().min(1).max(4).default(1),
  /** Shackles, links and swivels in line with it, one of each: they add their length, and their give where it is known. */
  fittings: z.array(id).default([]),
  hitch: z.enum(['straight', 'choke', 'basket']).default('straight'),
  chokeAngle: angle('between the body of a choked sling and its eye leg').optional(),
  basketAngle: angle('of each side of a basket from the vertical').optional(),
  /** Pull on its shackles out of line, in the plane of the bow. */
  side: angle('between the pull and the line of its shackles').optional(),
  /** Of a choke or a basket: radius of the sharpest edge of the piece that it goes round, and what covers it. */
  edge: length('radius of the sharpest edge that it goes round').optional(),
  padded: said.optional(),
  /** Spacers keep the lug in the middle of the shackle's jaw. */
  spacers: z.boolean().default(false),
})

/** How a piece hangs from one hook. */
export const arrangement = z.strictObject({
  /** Points of a spreader: where its ends are from the hook, along site axes before any tilt. */
  nodes: collection(z.strictObject({ gear: id, offset: point('from the hook') })),
  legs: z.array(leg).default([]),
  /** Shackles, tag lines and the like, counted. */
  others: z.array(z.strictObject({ item: id, count: z.int().min(1), onLegs: z.boolean().default(true) })).default([]),
  /** Gear in this arrangement: spreaders above, frames bolted to the piece. */
  gear: z.array(id).default([]),
})

/** Facts that class a lift; one not answered leaves the class open. */
export const liftFacts = z.strictObject({
  persons: z.boolean().optional(),
  cogCouldChange: z.boolean().optional(),
  hazardous: z.boolean().optional(),
  outOfView: z.boolean().optional(),
  nonRoutineRigging: z.boolean().optional(),
  /** On tyres, submerged, from a floating machine, a load test, or held critical by its operator or director. */
  otherReason: z.boolean().optional(),
  replaceWithin: duration('time to replace the piece').optional(),
})

/** What is arranged for a lift, by names of documents and of functions, never of persons. */
export const liftArranged = z.strictObject({
  plan: said.optional(),
  plannedBy: said.optional(),
  checkedBy: said.optional(),
  director: said.optional(),
  /** Qualification of operator, riggers and signaller, and means of signal. */
  crew: said.optional(),
  /** Document that says what is done when something fails or is not as planned. */
  contingency: said.optional(),
  /** How two machines are brought to their shares and kept there. */
  sharing: said.optional(),
  /** Where and when everybody goes through the plan before it. */
  meeting: said.optional(),
  /** The load is taken, held so high and so long, and looked at. */
  trial: z
    .strictObject({ height: length('height of the trial lift'), hold: duration('time held in the trial lift') })
    .optional(),
})

export const lift = z.strictObject({
  piece: id,
  kind: z.enum(['out', 'turn', 'move', 'back']),
  /** Which mass it carries. */
  as: z.enum(['found', 'returned']).default('found'),
  system: id,
  hook: id,
  /** Rigged at these points. */
  rigging: arrangement.optional(),
  tail: z
    .strictObject({
      system: id.optional(),
      hook: id,
      rigging: arrangement,
      /** Of a second crane. */
      radius: length('largest radius passed').optional(),
      /** Where it stands: the place of its standings, counted from 0. */
      standing: z.int().min(0).optional(),
      setUp: setUp.optional(),
    })
    .optional(),
  /** Turning: from and to, about site y; 0 upright as driven, 90 deg face down. */
  turn: z
    .strictObject({
      from: angle('start'),
      to: angle('end'),
      step: angle('between stages').optional(),
      hooksApart: length('plan distance of the hooks').optional(),
      /** Height kept between the lowest point of the piece and the bay while it turns. */
      overBay: length('of the lowest point over the bay').optional(),
      speed: quantity('rad/s', 'of turning', { above: 0 }).optional(),
      /** Turned on the bay about an edge or a trunnion that stands on it, from the main hook alone. */
      pivot: z
        .strictObject({
          at: point('edge or trunnion, machine frame'),
          edge: length('of the edge that bears').optional(),
          /** Of a trunnion on its stand; an edge that bears stands on the bay itself. */
          height: length('of the pivot over the bay').optional(),
          friction: ratio('coefficient of friction at the pivot').optional(),
          stop: quantity('N', 'horizontal force that a stop at the pivot may take').optional(),
        })
        .optional(),
      /** By which the control lets the height of one hook be out against the other's. */
      heightError: length('of one hook against the other').optional(),
      /** Holds the piece where its centre of gravity has passed over and no pair of pulls does. */
      restraint: z.strictObject({ rated: quantity('N', 'force it may hold the piece with'), note }).optional(),
    })
    .optional(),
  /** How the piece hangs, about site y: 0 as driven, 90 deg face down, −90 deg front up. A turn begins at its own start. */
  attitude: angle('from as driven, about site y').optional(),
  /** Day on which it is planned; absent, the day the programme has reached is taken for the certificates. */
  on: date.optional(),
  /** Gust at which this lift stops; absent, the machine's own limit. */
  stopWind: speed('gust at which this lift stops').optional(),
  /** Where it is set down. */
  bay: id.optional(),
  /** Absent: the trailer that takes it there, else the middle of the bay at its level. */
  landing: point('site: under its centre of gravity, at its lowest point as it is set down').optional(),
  /** From the load being taken; absent, the moment at which going on takes no longer than going back. */
  noReturn: duration('until the point of no return').optional(),
  /** Load, way and landing are lit, so that it need not end in daylight. */
  lit: z.boolean().default(false),
  standing: z.int().min(0).optional(),
  radius: length('largest radius passed').optional(),
  /** Boom, counterweight and slews of the crane in this lift. */
  setUp: setUp.optional(),
  /** Extra height over the barrier or a trailer on the way. */
  over: level('highest level that must be cleared, site z').optional(),
  facts: liftFacts.default({}),
  arranged: liftArranged.default({}),
  /** Shape factor for wind, with the heading that governs taken by the tool. */
  drag: quantity('1', 'drag coefficient of the piece', { above: 0 }).optional(),
  note,
})

/** Parts that leave together. */
export const piece = z.strictObject({
  name,
  short: z.string().max(24).optional(),
  parts: z.array(id).min(1),
  /** Muck, grease, water and oil left in; zero must be typed. */
  retained: mass('retained matter').optional(),
  /** What of it goes back with the piece; absent, all of it does. */
  retainedBack: mass('retained matter that goes back').optional(),
  points: collection(liftingPoint),
  bay: id.optional(),
  /** Signed stress report of the piece itself while lifted and turned. */
  stress: z
    .strictObject({
      use: ratio('largest use of the strength'),
      /** A heavier piece takes more of it: asked for where the piece comes back changed. */
      mass: quantity('kg', 'of the piece, as the report counts it', { above: 0 }).optional(),
      report: said,
      signedBy: said,
    })
    .optional(),
  note,
})

/** One movement: along a straight line in the site frame, or about an axis. */
export const move = z.union([
  z.strictObject({ by: point('displacement, site frame') }),
  z.strictObject({
    turn: angle('right-handed about the axis'),
    axis: z.enum(['x', 'y', 'z']),
    about: point('a point of the axis, site frame'),
  }),
])

/** A step of the order: one piece moves. */
export const step = z.strictObject({
  piece: id,
  moves: z.array(move).min(1),
  lift: id.optional(),
  /** The lift that brings the piece back along the reverse of these moves. */
  back: id.optional(),
  /** The piece stays in the shaft or the machine afterwards, at the end of its moves. */
  stays: z.boolean().default(false),
  /** What holds a piece that stays, and parts that no joint holds any more: rails, a frame, a prop. */
  support: z.string().optional(),
  /** The piece comes back by the reverse of these moves. */
  note,
})

/** What the cells of the hooks showed, all hooks at one moment. */
const cellReading = z.strictObject({
  at: moment.optional(),
  /** Whether the load hung free of its seat and of everything that held it. */
  free: z.boolean(),
  hooks: z.record(id, mass('reading of this hook, rigging and all')).refine((hooks) => Object.keys(hooks).length > 0, {
    error: () => expectation('at least one hook with its reading', '{ main: 316 t, tail: 281 t }'),
  }),
})

/** Readings of the load cells, from which the mass of the weighing comes. */
const cellRecord = z.strictObject({
  zero: mass('sum of all hooks with the rigging on them and no load'),
  readings: z.array(cellReading).min(1),
})

export const weighing = z.strictObject({
  piece: id,
  measured: mass('net of rigging'),
  accuracy: ratio('standard accuracy as a share'),
  date: date.optional(),
  lift: id.optional(),
  includes: z.string().optional(),
  cells: cellRecord.optional(),
  attachments: attached,
})
