import type { CheckKind } from '../working/check.ts'
import type { Source } from '../working/formula.ts'
import { systemKinds } from './systemKinds.ts'

const derived = (text: string): Source => ({ basis: 'derived', text })
const memory = (text: string): Source => ({ basis: 'memory', text })
const read = (text: string): Source => ({ basis: 'read', text })
const common = (text: string): Source => ({ basis: 'common practice', text: `${text}; no source` })

const kind = (
  id: string,
  title: string,
  practice: readonly number[],
  source: Source,
  decidedBy = 'lift engineer',
): CheckKind => ({ id: `lift.${id}`, title, stage: 'lift', source, practice, decidedBy })

export const loadComplete = kind(
  'hook.load-complete',
  'Every line of the hook load is there and has a mass',
  [19],
  read('ASME P30.1, 5-2.2(b): total load with rigging, accessories and attachments (excerpts read)'),
)

export const hookUse = kind(
  'hook.use',
  'Hook load within the rated load that the plan may use',
  [20],
  derived('load, with the block and dynamics where the rating asks for them, against rating × share'),
)

export const bothHooksUse = kind(
  'hook.both',
  'Load of both hooks within what they may carry together',
  [22],
  derived('sum of what hangs from the two hooks of one machine'),
)

export const hookReach = kind(
  'hook.reach',
  'The hook reaches over the piece and over its bay',
  [20],
  derived('place of the load outside the travel of the hook or the runway'),
)

export const classDemands = kind(
  'class.demands',
  'What the class of the lift demands is there',
  [21, 32],
  read(
    'EM 385-1-1 (2014) 16.H.01, quoted in a training page, for the criteria; 29 CFR 1926.1417(o), from memory, for weight by a second means above 75 %',
  ),
)

export const classArranged = kind(
  'class.arranged',
  'What the class of the lift demands before it is arranged',
  [21, 22],
  read(
    '29 CFR 1926.1432 for shared lifts: plan, lift director, meeting with all; ASME P30.1 5-3 and 5-4 (excerpts read); trial lift of 50 to 150 mm held 10 minutes or more: common practice, no source',
  ),
)

export const ratingBasis = kind(
  'rating.basis',
  'Dynamics and block counted once, on the side that the rating says',
  [29],
  memory('EN 13001-2 and ASME B30: the rating includes the hoist factor that it states'),
)

export const loadTest = kind(
  'system.load-test',
  'Load test of the lifting system',
  [31],
  memory('29 CFR 1926.1412 and local law; 125 % of the rated load is common practice'),
  'inspector',
)

export const testValid = kind(
  'system.test-valid',
  'Load test in date on the day that the lift states, and later than the last change of the system',
  [31],
  common('tested anew after it is erected, moved, repaired or changed in what bears; local law and the maker govern'),
  'inspector',
)

export const breakOut = kind(
  'hook.break-out',
  'Room for the ceiling of the load reading at break-out',
  [30],
  common('jack first; above planned load × (1 + band) stop, something still holds'),
)

export const tilt = kind(
  'hang.tilt',
  'Tilt of the hanging piece',
  [24],
  derived('equilibrium on elastic legs, level links set; 1° to 3° is common practice'),
)

export const stability = kind(
  'hang.stability',
  'The piece hangs stable: its centre of gravity below what it hangs by, or held by its legs',
  [25],
  derived('smallest eigenvalue of the second derivative of the energy at the pose that is meant'),
)

export const height = kind(
  'height.hook',
  'Hook high enough for what must be cleared',
  [26],
  derived('level to be cleared + clearance + hook above the lowest point ≤ highest hook'),
)

export const clearance = kind(
  'path.clearance',
  'Clearance of the piece in the shaft along its path',
  [27],
  derived('hull swept along its moves, as found and as it hangs: largest √(x² + y²) against the bore; gaps in plan'),
)

export const legTension = kind(
  'leg.tension',
  'Tension of a leg in the worst corner of the tolerances',
  [33],
  derived('compatibility and equilibrium of elastic legs, tension only'),
)

export const legRule = kind(
  'leg.rule',
  'Bridle by the rule of the standards',
  [33],
  read(
    'EN 818-4 through a catalogue: 2.1 and 1.5 straight ratings for three and four legs; 29 CFR 1926.251 guide: three legs by their angle, four rated as three',
  ),
)

export const riggingFamily = kind(
  'rigging.family',
  'All rigging is rated under the rules that the project chose',
  [35],
  common(
    'design factors of European and US ratings differ, so that factors of the one do not go with ratings of the other',
  ),
)

export const certificate = kind(
  'stock.certificate',
  'Every item has its certificate, in date on the day that the lift states',
  [35],
  read('DOE-STD-1090-96 2.2 c: inspection dates of the equipment are in the plan; local law on thorough examination'),
)

export const heat = kind(
  'sling.temperature',
  'No sling hotter than its rating allows',
  [36],
  read(
    '29 CFR 1926.251(c): fibre-core rope slings out of service above 200 °F; EN 818-4 for chain through a catalogue',
  ),
)

export const includedAngle = kind(
  'shackle.included-angle',
  'Angle between two legs in one hook, link or bow',
  [38],
  read('catalogues of shackles and a state guide on slings: at most 120°'),
)

export const jawFit = kind(
  'shackle.jaw',
  'The lug enters the jaw of its shackle and fills it',
  [38],
  read('note on a published lug sheet: at least 80 % of the jaw, or centred by spacers'),
)

export const legJoined = kind(
  'leg.joined',
  'Every lug has a shackle or a hook that joins its leg to it',
  [35, 38],
  common('a rope, a grommet or a fibre sling does not go through the hole of a lug itself'),
)

export const gearProof = kind(
  'gear.proof',
  'Spreader, frame, cross or cradle proof-tested before its first use',
  [35, 41],
  read(
    '29 CFR 1926.251(a)(4): accessories made for the job tested to 125 % of their rating before use; 1.5 of Directive 2006/42/EC, annex I 4.1.2.3, under European rules, from memory',
  ),
  'inspector',
)

export const legAngle = kind(
  'leg.angle',
  'Angle of a leg from the vertical',
  [34],
  memory('ASME B30.9: no horizontal angle below 30° unless a qualified person approves'),
)

export const componentUse = kind(
  'component.use',
  'Component of the rigging within its rating',
  [35],
  memory('ASME B30.9 and B30.26; EN 1492, EN 13414, EN 13889: rated load in straight lift'),
)

export const designFactor = kind(
  'sling.design-factor',
  'Design factor of a sling',
  [36],
  memory('ASME B30.9: synthetic and wire rope 5, alloy chain 4; 29 CFR 1926.251'),
)

export const stockCount = kind(
  'stock.count',
  'As many of an item on hand as the arrangement takes',
  [35],
  derived('count in the arrangement against the stock'),
)

export const bend = kind(
  'sling.bend',
  'Sling bent over a bow or pin',
  [37],
  read('rope handbooks: efficiency by D/d of 6-strand wire rope slings; IMCA M 179 as quoted in 0027/ND'),
)

export const edge = kind(
  'sling.edge',
  'Slings that go round the piece meet no sharp edge',
  [37],
  memory(
    '29 CFR 1910.184(c)(8): padded or protected from sharp edges; European guides: an edge is sharp whose radius is smaller than the rope, chain or band is thick',
  ),
)

export const pinFit = kind(
  'shackle.pin',
  "Shackle pin through the lug's hole",
  [38],
  memory('ASME B30.26: the pin passes the hole and fills it; never across the pin'),
)

export const pointOnPiece = kind(
  'point.on-piece',
  'Lifting points lie on the parts of the piece that they lift',
  [35, 39],
  derived(
    'gap between each point and the nearest solid of the piece, never more than it is, against the reach of its lug',
  ),
)

export const lug = kind(
  'lug.strength',
  'Lug: net tension, splitting edge, shear on two planes, bearing',
  [39],
  read('ASME BTH-1 3-3.3 through three published calculation sheets, which are recomputed'),
  'licensed structural engineer',
)

export const lugFoot = kind(
  'lug.foot',
  'Foot of the lug: tension, shear, bending in and out of its plane',
  [39],
  memory('EN 1993-1-1 6.2.1 and ASME BTH-1 3-2, side by side; the worse governs'),
  'licensed structural engineer',
)

export const lugWeld = kind(
  'lug.weld',
  'Weld of the lug',
  [40],
  read(
    'EN 1993-1-8 4.5.3.2 as a support page quotes it, or by the project: AISC 360 J2.4 with the factor of ASME BTH-1, from memory',
  ),
  'licensed structural engineer',
)

export const lugParent = kind(
  'lug.parent',
  'Plate under the lug: shear through it, bending between what stiffens it',
  [40],
  derived('strips of plate in statics; allowable by the rules of the project'),
  'licensed structural engineer',
)

export const lugTested = kind(
  'lug.tested',
  'Welds of the lugs and the plates under them tested',
  [40],
  common('magnetic particles or penetrant on fillets, ultrasonics through the thickness and for laminations'),
  'inspector',
)

const BEAM_RULES = 'EN 1993-1-1 6.2 and 6.3 or ASME BTH-1 chapter 3 with AISC 360 F, as the project chooses'

export const beamUse = kind(
  'beam.use',
  'Beam in bending, lateral-torsional buckling and compression',
  [41],
  memory(`${BEAM_RULES}; F2 was read in a handbook`),
  'licensed structural engineer',
)

export const beamShear = kind('beam.shear', 'Beam in shear', [41], memory(BEAM_RULES), 'licensed structural engineer')

export const beamBearing = kind(
  'beam.bearing',
  'Web of the beam under a force at one point',
  [41],
  memory('EN 1993-1-5 6 or AISC 360 J10.2, as the project chooses'),
  'licensed structural engineer',
)

export const beamSag = kind(
  'beam.sag',
  'Sag of the beam',
  [41],
  common("simple-beam statics against the project's share of the span"),
)

const BOLT_RULES = 'EN 1993-1-8 3.6 to 3.10 and 6.2.4 or AISC 360 J3 and Manual part 9, as the project chooses'

export const boltUse = kind(
  'bolts.use',
  'Worst bolt between frame and piece: shear, tension with prying, bearing',
  [42],
  memory(BOLT_RULES),
  'licensed structural engineer',
)

export const boltSlips = kind(
  'bolts.slip',
  'Bolts between frame and piece do not slip',
  [42],
  memory(BOLT_RULES),
  'licensed structural engineer',
)

export const pieceStress = kind(
  'piece.stress',
  'The piece itself bears being lifted and turned',
  [43],
  common('finite elements or a bound by hand, signed by a licensed engineer'),
  'licensed structural engineer',
)

export const looseParts = kind(
  'piece.loose',
  'Nothing loose can shift the centre of gravity',
  [44],
  read('ASME P30.1, 5-2.1(b): parts that could shift (excerpts read)'),
)

export const turnShare = kind(
  'turn.share',
  'Share of a hook over the whole turn',
  [23],
  derived('ΣF = 0, ΣM = 0 at every angle, with hoist lines that lean where the hooks cannot come closer'),
)

export const turnReversal = kind(
  'turn.reversal',
  'Both hooks pull over the whole turn',
  [23],
  derived('angles at which no pair of pulls of both hooks holds the piece'),
)

export const overCentre = kind(
  'turn.over-centre',
  'What holds the piece where its centre of gravity has passed over',
  [23],
  derived(
    'moments about the main point where no pair of pulls holds the piece, at the worst place of its centre of gravity',
  ),
)

export const turnBox = kind(
  'turn.box',
  'Held and stable over the turn wherever the centre of gravity lies in its box',
  [23, 25],
  derived(
    'every corner of the box, with the upper and the lower mass: pulls positive, Σ T (v²/ℓ + ω² r · up) positive',
  ),
)

export const turnAsMoved = kind(
  'turn.as-moved',
  'The turn is the one that the moves of its step make',
  [23],
  derived('angle of the turn against the angle by which the moves of the step tip the piece'),
)

export const pivotSlide = kind(
  'turn.pivot-slide',
  'The pivot on the ground does not slide',
  [23, 45],
  derived(
    'pull of a line out of plumb against friction at the pivot, or against its stop, at the angle most apt to slide',
  ),
)

export const pivotGround = kind(
  'turn.pivot-ground',
  'The piece stays above the bay as it turns about its pivot',
  [23, 26],
  derived(
    'how far its outside comes below the pivot over the whole turn, against the height of the pivot over the bay',
  ),
)

export const heightError = kind(
  'turn.height-error',
  'Share of a hook with the heights of both out by what their control allows',
  [22],
  derived(
    'the lines let out more or less, the piece turns on from an end of the turn until it follows, or hangs from one hook',
  ),
)

export const lineClash = kind(
  'turn.line-clear',
  'Hoist lines and slings clear of the piece over the turn',
  [27],
  derived('distance of each line, straight from its point, to the solids of the piece at every angle; hollows kept'),
)

export const sharedWorst = kind(
  'turn.worst-share',
  'Worst share of a hook, out of level and with the centre of gravity off its place',
  [22],
  read('29 CFR 1926.1432 for the duty to plan; the corners are derived'),
)

export const outOfPlumb = kind(
  'turn.out-of-plumb',
  'Hoist lines near plumb',
  [45],
  common("1° to 2° unless the maker permits more; the project's value"),
)

export const wind = kind(
  'wind.allowable',
  'Gust at which the lift stops, against the wind it can bear',
  [88],
  derived(
    "the lowest of the machine's own limit, that limit for the sail of the piece, and drag = permitted side load",
  ),
)

export const windSwing = kind(
  'wind.swing',
  'Swing in the wind within the room in the shaft',
  [27, 88],
  derived('l·sin α with tan α = ½ρv²·C·A/(m·g), at the gust that stops the lift, against the least gap'),
)

export const tagLines = kind(
  'wind.tag-lines',
  'People on tag lines can keep the piece from turning in the wind',
  [88],
  derived(
    "moment of the drag about the hoist line at the gust that stops the lift, over the levers of the tag lines; the pull of people is the project's",
  ),
  'lift director',
)

export const lineApproach = kind(
  'path.live-line',
  'Distance of hoist lines and piece to a live line along the way',
  [55],
  read('29 CFR 1926.1408 Table A as two public pages quote it, or what the owner of the line asks for; the greater'),
  'safety lead',
)

export const legClearance = kind(
  'path.tower-leg',
  'Piece passes between the legs of its own machine',
  [27],
  derived('gap in plan between the outline of the piece and each leg, which travels with the hook'),
)

export const riggingClearance = kind(
  'path.rigging',
  'Legs and spreaders clear the wall and what is fixed in the shaft',
  [27],
  derived('gap in plan of the rigging as it hangs, swept along the way, to wall and fixed things'),
)

export const boomClearance = kind(
  'path.boom',
  'Piece, rigging and block clear the boom of their crane',
  [27],
  derived('distance of what hangs from the hook from the line of the boom, least over the way, less half of the boom'),
)

export const boomBesideClear = kind(
  'path.boom-beside',
  'The boom clears what stands on the site and the booms of other cranes',
  [27],
  read(
    '0027/ND 13.8: 600 mm between a part that slews and what is fixed; or the clearance of the project, the greater; the distances are derived',
  ),
)

export const standingClearance = kind(
  'path.standing',
  'Piece passes what stands on the bays',
  [27],
  derived(
    'gap of the swept piece to everything on a bay at that step: the largest over directions in plan, up and down',
  ),
)

export const landingOnBay = kind(
  'landing.on-bay',
  'The piece is set down on its bay',
  [26],
  derived('outline of the piece as it lies against the bay in plan; level of its landing against that of the bay'),
)

export const timeFits = kind(
  'time.fits',
  'Lift over, with time in hand, before what it has to end in',
  [28],
  derived('height / speed + travel + turning + reserve against shift, daylight and how far the forecast sees'),
  'planner',
)

export const shelterInTime = kind(
  'time.shelter',
  'Out of the wind before the forecast ends, from every stage',
  [28, 88],
  common('a half-turned piece has to be safe until it can be landed: time to land against the lead of the forecast'),
)

export const failureHolds = kind(
  'failure.holds',
  'The load stays up when power, a jack or a winch fails, and the time to safety is known',
  [],
  read('ASME P30.1: contingency for failure of machine and power (excerpts read)'),
)

const REGISTER = 'coordinator of temporary works'

export const worksReady = kind(
  'works.ready',
  'Every temporary work under the lift has its check certificate and its permit to load',
  [],
  read('BS 5975:2019 6.2.3 and BS 5975-1:2024 12.7.5 (excerpts read)'),
  REGISTER,
)

export const worksIndependent = kind(
  'works.independent',
  'Designer and checker of a temporary work as far apart as its category asks',
  [],
  read('BS 5975-1:2024 Table 2 (excerpts read)'),
  REGISTER,
)

export const worksFigures = kind(
  'works.figures',
  "Checker's own figure against the designer's",
  [],
  common('figures that agree within what the project sets; a larger difference is explained in writing'),
  REGISTER,
)

export const liftKinds: readonly CheckKind[] = [
  loadComplete,
  hookUse,
  bothHooksUse,
  hookReach,
  classDemands,
  classArranged,
  ratingBasis,
  loadTest,
  testValid,
  breakOut,
  tilt,
  stability,
  height,
  clearance,
  legTension,
  legRule,
  riggingFamily,
  certificate,
  heat,
  includedAngle,
  jawFit,
  legJoined,
  gearProof,
  legAngle,
  componentUse,
  designFactor,
  stockCount,
  bend,
  edge,
  pinFit,
  pointOnPiece,
  lug,
  lugFoot,
  lugWeld,
  lugParent,
  lugTested,
  beamUse,
  beamShear,
  beamBearing,
  beamSag,
  boltUse,
  boltSlips,
  pieceStress,
  looseParts,
  turnShare,
  turnReversal,
  overCentre,
  turnBox,
  turnAsMoved,
  pivotSlide,
  pivotGround,
  heightError,
  lineClash,
  sharedWorst,
  outOfPlumb,
  wind,
  windSwing,
  tagLines,
  lineApproach,
  legClearance,
  riggingClearance,
  boomClearance,
  boomBesideClear,
  standingClearance,
  landingOnBay,
  timeFits,
  shelterInTime,
  failureHolds,
  worksReady,
  worksIndependent,
  worksFigures,
  ...systemKinds,
]
