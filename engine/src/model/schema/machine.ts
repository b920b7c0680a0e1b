import { z } from 'zod'
import { attached } from './attached.ts'
import {
  angle,
  collection,
  date,
  direction,
  duration,
  id,
  knownMass,
  length,
  level,
  mass,
  name,
  note,
  planPoint,
  point,
  quantity,
  ratio,
  share,
  span,
} from './field.ts'

/** Each solid adds to or is cut from its part; `fill` is the solid fraction of its volume (1: solid). Frame: machine. */
const solidFields = {
  op: z.enum(['add', 'cut']).default('add'),
  fill: share('solid fraction of the volume').optional(),
  note,
}

export const solid = z.discriminatedUnion('shape', [
  z.strictObject({
    shape: z.literal('ring sector'),
    inner: length('inner radius about the machine axis'),
    outer: length('outer radius about the machine axis'),
    along: span('along x'),
    angles: z.tuple([angle('from, about +x, left 0, crown 90 deg'), angle('to')]),
    ...solidFields,
  }),
  z.strictObject({
    shape: z.literal('cylinder'),
    radius: length('radius'),
    from: point('centre of one end'),
    to: point('centre of the other end'),
    ...solidFields,
  }),
  z.strictObject({
    shape: z.literal('cone'),
    radii: z.tuple([length('radius at the first end'), length('radius at the second end')]),
    from: point('centre of the first end'),
    to: point('centre of the second end'),
    ...solidFields,
  }),
  z.strictObject({ shape: z.literal('sphere'), radius: length('radius'), centre: point('centre'), ...solidFields }),
  z.strictObject({
    shape: z.literal('box'),
    centre: point('centre'),
    size: z.tuple([length('along x'), length('along y'), length('along z')]),
    ...solidFields,
  }),
  z.strictObject({
    shape: z.literal('radial box'),
    along: span('along x'),
    radius: length('distance of the centre from the axis'),
    radial: length('size along the ray'),
    across: length('size across the ray'),
    angle: angle('of the ray, about +x, left 0, crown 90 deg'),
    ...solidFields,
  }),
  z.strictObject({
    shape: z.literal('revolution'),
    from: point('a point of the axis'),
    to: point('another point of the axis'),
    profile: z
      .array(
        z.tuple([level('along the axis, from its first point towards the other'), length('distance from the axis')]),
      )
      .min(3)
      .max(200)
      .describe('corners of half the section, in order; the last is joined to the first'),
    ...solidFields,
  }),
  z.strictObject({
    shape: z.literal('extrusion'),
    axis: z.enum(['x', 'y', 'z']).describe('the direction in which the outline is drawn out'),
    between: span('along that direction'),
    outline: z
      .array(planPoint('of a corner: y and z for x, z and x for y, x and y for z'))
      .min(3)
      .max(200)
      .describe('corners in order; the last is joined to the first'),
    turn: angle('of the whole about +x').optional(),
    ...solidFields,
  }),
  z.strictObject({
    shape: z.literal('spherical cap'),
    radius: length('radius of the flat face'),
    from: point('centre of the flat face'),
    to: point('top of the dome'),
    ...solidFields,
  }),
  z.strictObject({
    shape: z.literal('mesh'),
    file: z.string().describe('content hash of a closed STL or glTF file beside the project'),
    scale: length('length of one unit of the file; of glTF, whose unit is the metre, 1 m'),
    axes: z
      .enum(['machine', 'y up'])
      .optional()
      .describe(
        'which way the file lies. machine: x forward, y left, z up, taken as it stands. y up: as glTF 2.0 lays down, y up, z forward and x to the left, brought over as x from z, y from x, z from y. A glTF file must say which, for many are written otherwise; any other is taken as machine',
      ),
    at: point('origin of the file, machine frame').optional(),
    ...solidFields,
  }),
])

const tested = (how: string) =>
  z.strictObject({ method: z.string().min(1).describe(how), on: date.optional(), passed: z.boolean() })

/** Weld of a lug to what it stands on: one on either face of the plate, or through its whole thickness. */
const lugWeld = z.strictObject({
  kind: z.enum(['fillet', 'full penetration']),
  throat: length('throat of each fillet').optional(),
  length: length('of each fillet; otherwise as long as the foot').optional(),
  metal: quantity('Pa', 'tensile strength of the weld metal', { above: 0 }).optional(),
  ndt: tested('how the weld was tested').optional(),
})

/** The plate that a lug stands on. */
const lugParent = z.strictObject({
  thickness: length('of the plate under the lug'),
  yield: quantity('Pa', 'yield strength', { above: 0 }),
  ultimate: quantity('Pa', 'tensile strength', { above: 0 }).optional(),
  span: length('free span across the lug; zero where a stiffener stands under it').optional(),
  ndt: tested('how the plate was tested for laminations').optional(),
})

export const liftingPoint = z.strictObject({
  at: point('centre of the hole, machine frame, as installed'),
  rated: mass('rated load of the point').optional(),
  lug: z
    .strictObject({
      plate: length('thickness of the main plate'),
      cheeks: length('thickness of both cheek plates together').optional(),
      hole: length('hole diameter'),
      pin: length('pin diameter'),
      radius: length('from hole centre to edge'),
      yield: quantity('Pa', 'yield strength', { above: 0 }),
      ultimate: quantity('Pa', 'tensile strength', { above: 0 }).optional(),
      /** How it stands: without these its foot, its weld and the plate under it stay open. */
      stands: direction('from its foot to the hole, machine frame').optional(),
      axis: direction('of the pin through it, machine frame').optional(),
      reach: length('from the foot to the centre of the hole').optional(),
      foot: length('width of the plate at its foot').optional(),
      weld: lugWeld.optional(),
      parent: lugParent.optional(),
    })
    .optional(),
})

export const part = z.strictObject({
  name,
  group: z.string().optional(),
  material: id,
  solids: z.array(solid).min(1),
  /** Like parts around the machine axis or along a line; each instance is named id-01, id-02, … */
  pattern: z
    .discriminatedUnion('kind', [
      z.strictObject({
        kind: z.literal('around the axis'),
        count: z.int().min(1).max(400),
        step: angle('from one to the next, about +x'),
      }),
      z.strictObject({
        kind: z.literal('along a line'),
        count: z.int().min(1).max(400),
        step: point('from one to the next'),
      }),
    ])
    .optional(),
  /** Mass of one instance; absent, it is the volume × density × fill of the solids. */
  mass: knownMass.optional(),
  fate: z.enum(['reused', 'replaced', 'scrapped']).default('reused'),
  points: collection(liftingPoint),
  /** Overlaps with these entries are a modelling choice (a shaft in its bore), down to this depth. */
  overlapAccepted: z
    .array(z.strictObject({ with: id, depth: length('accepted depth of overlap'), why: z.string() }))
    .default([]),
  note,
})

export const joint = z.strictObject({
  between: z.tuple([id, id]),
  kind: z.enum(['bolted', 'welded', 'pinned', 'splined', 'seated', 'shrunk', 'keyed']),
  access: z.enum(['inside', 'rear', 'front', 'both', 'chamber', 'outside']),
  /** Parts or entries that hide the fasteners from the tool. */
  hiddenBy: z.array(id).default([]),
  bolts: z
    .strictObject({
      thread: z.string(),
      grade: z.string(),
      count: z.int().min(1),
      circle: length('bolt circle diameter').optional(),
      preload: quantity('N', 'preload of one bolt', { above: 0 }).optional(),
      tightening: z.string().optional(),
      dowels: z.int().min(0).default(0),
      layout: z.string().optional(),
      timeOff: duration('to take one off'),
      timeOn: duration('to put one on'),
      /** How the preload is reached when the joint is closed again. */
      method: z.enum(['torque', 'hydraulic tension', 'turn of nut', 'elongation']).optional(),
      lubrication: z.enum(['none', 'oil', 'paste']).optional(),
      friction: ratio('friction in the thread and under the head').optional(),
      nutFactor: ratio('nut factor K: torque over preload and diameter').optional(),
      scatter: share('of the preload to either side; otherwise by the method').optional(),
      least: quantity('N', 'least preload that the joint needs of one bolt', { least: 0 }).optional(),
      head: length('outer diameter of the face under the head; otherwise by the size').optional(),
      hole: length('diameter of the hole; otherwise by the size').optional(),
      tensioner: z
        .strictObject({
          area: quantity('m2', 'pressure area of the tensioner', { above: 0 }),
          transfer: quantity('1', 'applied load over what remains in the bolt', { least: 1 }),
        })
        .optional(),
      /** Tools on the joint at the same time, evenly round it. */
      tools: z.int().min(1).max(40).optional(),
      /** Shares of the preload, pass by pass; a check pass follows in any case. */
      passes: z.array(share('of the preload')).min(1).max(10).optional(),
      recheck: z.string().optional().describe('when every bolt is looked at again after it has settled'),
      /** The old bolts go back in. */
      reused: z.boolean().optional(),
      /** Part of the circle that the bolts stand on; absent: all of it. */
      arc: angle('of the circle that the bolts stand on').optional(),
      /** Bolts in straight rows. */
      rows: z
        .strictObject({
          number: z.int().min(1).max(10),
          pitch: length('from bolt to bolt along a row'),
          gauge: length('from row to row').optional(),
        })
        .optional(),
    })
    .optional(),
  /** What the joint carries when the machine works, at the middle of its bolts: for whether it opens or slips. */
  flange: z
    .strictObject({
      axial: quantity('N', 'pulls the faces apart; negative presses them together'),
      shear: quantity('N', 'across the faces', { least: 0 }),
      torque: quantity('N m', 'about the axis of the bolts', { least: 0 }),
      moment: quantity('N m', 'that tilts one face on the other', { least: 0 }),
      friction: ratio('friction between the faces'),
    })
    .optional(),
  /** Faces of the joint before it is bolted: the maker's limits, and what is measured. */
  faces: z
    .strictObject({
      flatness: length('largest departure from flat that the maker allows').optional(),
      gap: length('largest gap between the faces before bolting that the maker allows').optional(),
      flatnessMeasured: length('departure from flat, as measured').optional(),
      gapMeasured: length('gap before bolting, as measured').optional(),
    })
    .optional(),
  weld: z
    .strictObject({
      type: z.string(),
      throat: length('throat'),
      length: length('length'),
      cutting: quantity('m/s', 'length cut or gouged per time', { above: 0 }),
      laying: quantity('kg/s', 'weld metal laid per time', { above: 0 }),
      test: z.string().optional(),
    })
    .optional(),
  /** Where the heads of the fasteners stand, machine frame, for whether the tool fits. */
  fasteners: z
    .strictObject({
      /** The way in which the tool comes off. */
      off: z.enum(['+x', '-x', '+y', '-y', '+z', '-z']),
      heads: z.array(point('of a head')).max(400).default([]),
      /** As many as there are bolts, evenly on a circle square to that way. */
      circle: z
        .strictObject({
          centre: point('of the circle of heads'),
          diameter: length('of the circle of heads'),
          first: angle('of the first, from the next axis of the machine in the order x, y, z').optional(),
        })
        .optional(),
    })
    .optional(),
  /** Room that the tool needs over a head: a cylinder. */
  tool: z.strictObject({ length: length('along the fastener'), swing: length('radius about the fastener') }).optional(),
  /** Times the tool is set up or changed while the joint is opened, and as often while it is closed. */
  toolChanges: z.int().min(0).optional(),
  /** Half way through: what holds the piece when the last bolts are taken off under the hook. */
  halfway: z
    .strictObject({
      left: z.int().min(0).describe('bolts still in when the hook has taken its share'),
      hook: share('share of the weight that the hook carries by then'),
      jacks: quantity('N', 'carried by jacks and props by then', { least: 0 }).optional(),
      resistance: quantity('N', 'of one bolt left, as the licensed engineer has set it', { least: 0 }).optional(),
    })
    .optional(),
  pin: z.strictObject({ diameter: length('pin diameter'), count: z.int().min(1) }).optional(),
  timeOff: duration('to release the joint, other than bolts and welds').optional(),
  timeOn: duration('to close it').optional(),
  /** The joint acts through a bracket that is not modelled as a part: the faces need not touch. */
  throughBracket: z.boolean().default(false),
  note,
})

const signature = z.strictObject({ by: name, on: date })

/** A service parted: the tag as it was written down then. */
const parted = signature.extend({ tag: name.optional() })

/** A service joined again: its tag and the tag of the port as they were read then, and the second person who looked. */
const joined = signature.extend({ tag: name.optional(), port: name.optional(), checkedBy: name.optional() })

/** What decides how long a hose may stay in use. */
const hose = z.strictObject({
  made: date.optional(),
  rated: quantity('Pa', 'rated pressure', { above: 0 }).optional(),
  leastBend: quantity('m', 'least bend radius the maker allows', { above: 0 }).optional(),
  bend: quantity('m', 'tightest bend radius as laid', { above: 0 }).optional(),
})

export const service = z.strictObject({
  kind: z.enum(['hose', 'cable', 'pipe']),
  medium: z.string(),
  from: id,
  to: id,
  size: z.string().optional(),
  length: length('length').optional(),
  pressure: quantity('Pa', 'working pressure').optional(),
  voltage: quantity('V', 'voltage').optional(),
  isolation: id.optional(),
  drained: quantity('m3', 'volume drained when it is parted', { least: 0 }).optional(),
  /** Long enough to follow the piece without being parted. */
  follows: z.boolean().default(false),
  capped: z.boolean().optional(),
  timeOff: duration('to part'),
  timeOn: duration('to reconnect'),
  linear: quantity('kg/m', 'mass per length', { least: 0 }).optional(),
  /** What stands on its tags, at both ends and at both ports; its id where none is given. */
  tag: name.optional(),
  hose: hose.optional(),
  parted: parted.optional(),
  joined: joined.optional(),
  attachments: attached,
  note,
})

export const isolation = z.strictObject({
  what: z.string(),
  kind: z.string(),
  where: z.string(),
  storedEnergy: z.string().optional(),
  /** What is done, each act by whom and when: switched off and isolated; locked and tagged; stored energy let go; proved dead. */
  signed: z
    .strictObject({
      isolated: signature.optional(),
      locked: signature.optional(),
      discharged: signature.optional(),
      proved: signature.optional(),
    })
    .optional(),
})

/** What is done to a part before it goes back. Only an approved change enters the returned mass. */
export const change = z.strictObject({
  kind: z.enum(['replace', 'stiffen', 'add', 'modify']),
  what: z.string(),
  reason: z.string().optional(),
  status: z.enum(['proposed', 'approved', 'rejected', 'done']),
  parts: z.array(id).min(1),
  /** How what is new is joined to the part. Welded, it asks for the record of its weld; where nothing is said, for none. */
  joining: z.enum(['welded', 'bolted', 'other']).optional(),
  /** New mass of a replaced part as a share of the old. */
  factor: ratio('mass of the new as a share of the old').optional(),
  /** Mass added to each id named (negative: taken away), for an entry the total over its instances; with its common centre. */
  added: z
    .strictObject({
      mass: quantity('kg', 'mass added; negative is taken away'),
      basis: z.enum(['weighed', 'calculated', 'catalogue', 'estimated']),
      uncertainty: ratio('standard uncertainty as a share').optional(),
      at: point('centre of what is added, machine frame').optional(),
      /** Shape of what is added to each part named, machine frame, at the entry's own place: for the way back. */
      solids: z.array(solid).optional(),
      /** Stated where no shape is given: all of it lies within the outline of the part. */
      withinOutline: z.boolean().optional(),
      /** How the mass follows, for the reader: plates, sizes, counts. */
      from: z.string().optional(),
    })
    .optional(),
  note,
})

export const machine = z.strictObject({
  pose: z.strictObject({
    origin: point('of the machine frame in the site frame'),
    roll: angle('about machine x, right-handed'),
    pitch: angle('nose up'),
    yaw: angle('to the left'),
    basis: z.string().optional(),
    tolerance: z
      .strictObject({ x: length('along'), y: length('across'), z: length('up'), roll: angle('roll') })
      .optional(),
    /** Surveyed points of the machine, for the residuals of the pose. */
    survey: collection(
      z.strictObject({
        machine: point('machine frame'),
        site: point('site frame, as surveyed'),
        accuracy: length('standard accuracy of the survey'),
      }),
    ),
  }),
  /** Totals the maker gives for groups, to hold the roll-up against. */
  groupTotals: collection(
    z.strictObject({ mass: mass('total'), uncertainty: ratio('share'), source: z.string().optional() }),
  ),
  targets: z.array(id).default([]),
  shieldDiameter: length('outer diameter of the shield').optional(),
})

export const material = z.strictObject({
  density: quantity('kg/m3', 'density', { above: 0 }),
  young: quantity('Pa', "Young's modulus").optional(),
  note,
})
