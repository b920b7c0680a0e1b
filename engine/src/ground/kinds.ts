import type { CheckKind } from '../working/check.ts'
import type { SourceBasis } from '../working/formula.ts'

const GROUND = 'ground engineer'
const STRUCTURE = 'licensed structural engineer'

function kind(
  id: string,
  title: string,
  practice: readonly number[],
  basis: SourceBasis,
  text: string,
  decidedBy = GROUND,
): CheckKind {
  return { id: `ground.${id}`, title, stage: 'ground', source: { basis, text }, practice, decidedBy }
}

export const ringStress = kind(
  'ring.stress',
  'Hoop stress of the shaft wall at depth',
  [57],
  'derived',
  'N = p r_o, σ = N/t with neighbours leaning apart; strength of plain concrete by EN 1992-1-1 12.3.1 from memory',
)
export const ringBending = kind(
  'ring.bending',
  'Hoop thrust of a wall out of round',
  [57],
  'derived',
  'moment of a two-lobed deviation (Timoshenko & Gere, from memory); resistance off centre by EN 1992-1-1 12.6.1 from memory',
)
export const overlapThickness = kind(
  'overlap.thickness',
  'Thickness of the overlap at depth',
  [58],
  'derived',
  't = √(D² − s²), s = s₀ + 2 (setting out + depth × verticality), against the thickness that the thrust needs',
)
export const overlapClosed = kind(
  'overlap.closed',
  'Neighbouring piles or panels still meet at the toe',
  [58],
  'derived',
  'two circles part when their centres are a diameter apart; panels when they have parted by their overlap',
)
export const overlapChance = kind(
  'overlap.chance',
  'Chance that a joint of two piles stands open at the toe',
  [58],
  'derived',
  'overlap at the top against the difference of two normal deviations; 1 − (1 − p)ⁿ over the joints; what is accepted is the project’s',
)
export const wallVerticality = kind(
  'wall.verticality',
  'Lean of the piles or panels as surveyed',
  [58],
  'derived',
  'distance in plan between two surveyed points over the depth between them; the tolerance is the project’s',
)
export const ringBuckling = kind(
  'ring.buckling',
  'Buckling of the ring without help from the ground',
  [59],
  'memory',
  'p = 3 E I/r³ of a free ring (Timoshenko & Gere), a bound',
)
export const eyeCut = kind(
  'eye.cut',
  'Eye where the ring is cut',
  [60],
  'common practice',
  'common practice, no source: a model in three dimensions, frame or collar, by a licensed engineer',
  `${STRUCTURE} (shaft)`,
)
export const baseHeave = kind(
  'base.heave',
  'Base heave in clay, Bjerrum and Eide form',
  [61],
  'memory',
  'Bjerrum & Eide 1956 with N_c of Skempton 1951; strength below the base only, toe embedment ignored',
)
export const baseUplift = kind(
  'base.uplift',
  'Uplift of the base plug from confined water',
  [62],
  'read',
  'EN 1997-1:2004 2.4.7.4, basic form; the factors are the project’s',
)
export const baseGradient = kind(
  'base.gradient',
  'Upward gradient through the base plug',
  [63],
  'derived',
  "i = head lost/length against γ'/γ_w over the factor required",
)
export const wellsNumber = kind(
  'wells.number',
  'Relief wells with one out of action',
  [64],
  'common practice',
  'common practice, no source: the wells needed, and one more',
)
export const wellsTime = kind(
  'wells.time',
  'Time to the critical head when the pumps stop',
  [64],
  'derived',
  'recovery with one time constant from the pumping test, to the head at which the uplift check reaches 1',
)
export const slabUplift = kind(
  'slab.uplift',
  'Uplift of slab and plug with the water restored',
  [65],
  'derived',
  'weights of plug, slab and fill against the full head; the machine is never counted',
)
export const cradleOverhang = kind(
  'cradle.overhang',
  'Front of the shield reaches the cradle before it tips over the edge',
  [66],
  'derived',
  'the gap before the cradle against the distance from the centre of gravity to the front',
  STRUCTURE,
)
export const cradleSlide = kind(
  'cradle.slide',
  'Contact pressure of the machine on its cradle as it slides in',
  [66],
  'derived',
  'rigid shield on one even bed without tension, in two stretches; saddle p₀ cos θ; EN 1992-1-1 6.7 from memory',
  STRUCTURE,
)
export const stageUplift = kind(
  'base.stage',
  'Uplift at a stage of the excavation',
  [62],
  'derived',
  'EN 1997-1:2004 2.4.7.4, basic form, at each stage; head in proportion to the wells that run',
)
export const stopUplift = kind(
  'wells.stop',
  'Uplift once wells are stopped over the fill',
  [65],
  'derived',
  'weights of plug, slab and fill so far against the head with the wells still running',
)
export const cradleContact = kind(
  'cradle.contact',
  'Contact pressure of the machine on its cradle',
  [66],
  'derived',
  'saddle p₀ cos θ under the largest load per metre; EN 1992-1-1 6.7 from memory',
  STRUCTURE,
)
export const cradleRoll = kind(
  'cradle.roll',
  'Friction that keeps what remains from rolling in the cradle',
  [66],
  'derived',
  'reactions pass through the axis: only friction, or a stop, holds a sideways offset',
  STRUCTURE,
)
export const boreClear = kind(
  'bore.clear',
  'Clear bore that the tolerances guarantee',
  [70],
  'derived',
  'inner face less lining and deviation at the level of the slab',
)
export const boreMachine = kind(
  'bore.machine',
  'Room between machine and bore, all round',
  [70],
  'derived',
  'farthest point of the machine in the shaft from the shaft axis',
)
export const blockLength = kind(
  'block.length',
  'Treated block before the eye',
  [68],
  'derived',
  'sagitta of the wall plus the cover asked for; acceptance by probe holes and cores is the ground engineer’s',
)
export const towerLeg = kind(
  'tower.leg',
  'Leg of the lift tower on its piles, hook anywhere in its travel',
  [46],
  'derived',
  'header as a beam on two rails, with the couples of travel and wind',
)
export const towerUplift = kind(
  'tower.uplift',
  'Leg of the lift tower in a storm, hook empty',
  [47],
  'derived',
  'wind couple against own weight; EN 1990 EQU from memory for the idea, the factor is the project’s',
  STRUCTURE,
)
export const towerSliding = kind(
  'tower.sliding',
  'Lift tower in a storm does not slide, hook empty',
  [47],
  'derived',
  'gust of the storm on its own area against friction under its own weight and what it is held by; EN 1990 EQU from memory for the idea, the factor is the project’s',
  STRUCTURE,
)
export const cranePressure = kind(
  'crane.pressure',
  'Pressure under tracks, floats and mats',
  [49],
  'derived',
  'linear pressure under the nearer track, or a rigid frame on four floats, worst over the slew',
)
export const craneMat = kind(
  'crane.mat',
  'Mats of a crane beyond its tracks or floats',
  [49],
  'read',
  'Duerr, Effective Bearing Length of Crane Mats, 2010, eq. 2 to 8: a cantilever under even pressure',
)
export const platformBearing = kind(
  'platform.bearing',
  'Bearing resistance of the ground under a crane',
  [50],
  'read',
  'EN 1997-1:2004 Annex D.4 as a published calculation sheet prints it; D.3 from memory; spread 2:1 to a lower clay',
)
export const bayPressure = kind(
  'bay.pressure',
  'Pressure of a piece on its laydown bay',
  [52],
  'derived',
  'weight over the packed share of the plan outline, linear when the centre of gravity is off its middle',
)
export const bayPiles = kind(
  'bay.piles',
  'Piles of a laydown bay',
  [52],
  'derived',
  'everything that stands on the bay together, shared evenly by its piles',
)
export const plantPressure = kind(
  'plant.pressure',
  'Pressure of stockpile or plant on what it stands on',
  [52],
  'derived',
  'weight over its plan',
)
export const serviceStress = kind(
  'service.stress',
  'Buried service under what stands above it',
  [54],
  'derived',
  'Boussinesq over the footprints of everything that stands at a step; the owner says what the service bears',
  'owner of the service',
)
export const baySettlement = kind(
  'bay.settlement',
  'Settlement of a laydown bay',
  [51],
  'memory',
  'layered elastic ground after Steinbrenner, centre of a flexible bay; what stands on it and, by corners of rectangles, what stands beside it',
)
export const bayTilt = kind(
  'bay.tilt',
  'Tilt of a laydown bay',
  [51],
  'derived',
  'rigid round pad of the same area on ground of the same stiffness; and the slope, edge to edge, that what stands beside it brings',
)
export const wallSurcharge = kind(
  'wall.surcharge',
  'Pressure on the shaft wall from what stands around it',
  [53],
  'derived',
  'Boussinesq, ν = 0.5, doubled for a wall that does not yield, over the whole circumference',
)
export const haulVehicle = kind(
  'haul.vehicle',
  'Loaded trailer on the haul road',
  [54],
  'common practice',
  'common practice, no source: the road’s limit of vehicle mass',
)
export const haulPayload = kind(
  'haul.payload',
  'Piece on its trailer',
  [54],
  'common practice',
  'common practice, no source: the maker’s payload',
)
export const haulPressure = kind(
  'haul.pressure',
  'Trailer deck pressure on the ground it stands on',
  [54],
  'derived',
  'weight over the plan of the platform',
)
export const haulLine = kind(
  'haul.line',
  'Axle line of the loaded trailer on the haul road',
  [54],
  'common practice',
  'common practice, no source: even shares of the lines, against what the designer of the road lets on it',
)
export const haulRoad = kind(
  'haul.road',
  'Pressure of the loaded trailer on the haul road',
  [54],
  'derived',
  'weight over the plan of the platform',
)
export const haulWall = kind(
  'haul.wall',
  'Pressure on the shaft wall as a loaded trailer passes',
  [53, 54],
  'derived',
  'Boussinesq, ν = 0.5, doubled, at every place along the road, added to what stands there; peaks taken as at one place',
)
export const lineClearance = kind(
  'line.clearance',
  'Clearance of a crane to a live line',
  [55],
  'memory',
  '29 CFR 1926.1408: the distance kept, or the line de-energised and visibly earthed',
  'safety lead',
)
export const cradleSliding = kind(
  'cradle.sliding',
  'Cradle block held against the thrust of the drive-in',
  [66],
  'derived',
  'friction under block and machine',
  STRUCTURE,
)
export const jackLoad = kind(
  'jack.load',
  'Heaviest jack under the shield',
  [66],
  'derived',
  'rigid body on points of equal stiffness; the one that runs ahead by the synchronous tolerance takes k d (1 − h) more',
  'supplier of the jacks',
)
export const jackShell = kind(
  'jack.shell',
  'Shell of the shield over the heaviest jack',
  [66],
  'derived',
  'the same load against what the maker allows at one point',
  'machine maker',
)
export const jackFree = kind(
  'jack.free',
  'Every jack stays loaded while the shield is raised',
  [66],
  'derived',
  'what the least loaded jack loses when it lags, or another runs ahead, against what it carries',
  STRUCTURE,
)
export const jackBearing = kind(
  'jack.bearing',
  'Concrete under the plate of the heaviest jack',
  [66],
  'derived',
  'load over the plate with the load factor; EN 1992-1-1 6.7 from memory, no spread counted',
  STRUCTURE,
)
export const ringsClosed = kind(
  'rings.closed',
  'Joints of the last rings held closed with the thrust released',
  [],
  'derived',
  'gasket and water outside it against ties, and bolts where given; that the last rings are tied is common practice, no source',
  'tunnel designer',
)
export const ringsChance = kind(
  'rings.chance',
  'Chance that a joint of the last rings opens as the thrust is let go',
  [],
  'derived',
  'hold less force as a normal margin, its spread the project’s; 1 − (1 − p)ⁿ over the joints',
  'tunnel designer',
)
export const ringsOpening = kind(
  'rings.opening',
  'Opening of the joints of the last rings with the thrust released',
  [],
  'derived',
  'stretch of the ties alone, against what the maker of the gasket allows at that water',
  'maker of the gasket',
)
export const restartReaction = kind(
  'restart.reaction',
  'What the machine pushes on at the restart',
  [71],
  'derived',
  'working load of the frame once signed, or π D L f of grouted rings',
  STRUCTURE,
)
export const restartBearing = kind(
  'restart.bearing',
  'Feet of the restart frame on the wall of the shaft',
  [71],
  'derived',
  'thrust over the feet with the load factor; EN 1992-1-1 6.7 from memory, no spread counted',
  STRUCTURE,
)
export const cradleSplitting = kind(
  'cradle.splitting',
  'Bars across the cradle hold its sides together under the machine',
  [66],
  'derived',
  'outward push of two strips at the ends of the contact arc, smooth, with the load factor; bars by EN 1992-1-1 3.2.7 from memory',
  STRUCTURE,
)
export const jackBursting = kind(
  'jack.bursting',
  'Bars under the plate of a jack against bursting',
  [66],
  'memory',
  'a quarter of the load, the bound of EN 1992-1-1 6.5.3 (3), from memory; with the load factor',
  STRUCTURE,
)
export const breakInPush = kind(
  'drive-in.push',
  'Push that breaks the wall at the eye',
  [71],
  'common practice',
  'common practice, no source: push of the tools with friction on the skin and pressure on the face, against the thrust available',
  'machine maker',
)
export const breakInWall = kind(
  'drive-in.wall',
  'The last of the wall at the eye does not break out into the shaft',
  [71, 60],
  'common practice',
  'common practice, no source: push on the face against what a licensed engineer signs that the last of the wall bears',
  STRUCTURE,
)
export const breakInTorque = kind(
  'drive-in.torque',
  'Torque that breaks the wall at the eye',
  [71],
  'derived',
  'drag of the tools at the mean radius of their tracks, against what the drive may turn with as it is',
  'machine maker',
)
export const breakInHeld = kind(
  'drive-in.held',
  'The shield does not roll in the ground as the head turns at the eye',
  [71],
  'derived',
  'torque of the head and weight to one side against friction on the skin',
  'machine maker',
)
export const driveInRoll = kind(
  'drive-in.roll',
  'Roll at which the machine rests',
  [71],
  'common practice',
  'common practice, no source: roll as surveyed against the limit of the maker',
  'machine maker',
)
export const restartRoll = kind(
  'restart.roll',
  'The shield does not roll on its bed at the restart',
  [71],
  'derived',
  'torque of the head and weight to one side against friction on the bed and stops',
  'machine maker',
)
export const driveInThrust = kind(
  'drive-in.thrust',
  'Thrust without torque for the drive-in',
  [71],
  'derived',
  'friction on the cradle and the skin, pressure on the face',
  'machine maker',
)
export const eyeSeal = kind(
  'eye.seal',
  'Seal of an eye against the water outside',
  [67],
  'common practice',
  "common practice, no source: the maker's rating and factor",
  'machine maker',
)
export const fillVolume = kind(
  'fill.volume',
  'Fill of the shaft before the restart',
  [72],
  'common practice',
  'common practice, no source: volume pumped within a band about the room computed',
)
export const neighbour = kind(
  'neighbour.reading',
  'Neighbour below its alert level',
  [69],
  'common practice',
  "common practice, no source: the project's levels of alert, action and alarm",
)
export const instrumentReading = kind(
  'instrument.reading',
  'Last reading before the alert level',
  [69],
  'common practice',
  "common practice, no source: the project's levels of alert, action and alarm, and its plan",
)
export const instrumentTrend = kind(
  'instrument.trend',
  'Alarm level not reached while the plan is carried out',
  [69],
  'derived',
  'line of least squares through the last five readings, drawn on by the notice that the plan needs',
)
export const instrumentDue = kind(
  'instrument.due',
  'Instrument read as often as the step under way asks',
  [69],
  'common practice',
  "common practice, no source: the project's plan of readings",
)
export const runwayLevel = kind(
  'runway.level',
  'Runway of a lift tower, or a crane on its feet, level as surveyed',
  [48],
  'common practice',
  "common practice, no source: the maker's limit of level",
)
export const decision = kind(
  'decision',
  'Decision of the responsible ground engineer',
  [],
  'common practice',
  'common practice, no source: what the tool cannot choose has a name, a date and a value',
)

export const groundKinds: readonly CheckKind[] = [
  ringStress,
  ringBending,
  overlapThickness,
  overlapClosed,
  overlapChance,
  wallVerticality,
  ringBuckling,
  eyeCut,
  baseHeave,
  baseUplift,
  baseGradient,
  wellsNumber,
  wellsTime,
  slabUplift,
  cradleOverhang,
  cradleSlide,
  stageUplift,
  stopUplift,
  cradleContact,
  cradleRoll,
  boreClear,
  boreMachine,
  blockLength,
  towerLeg,
  towerUplift,
  towerSliding,
  cranePressure,
  craneMat,
  platformBearing,
  bayPressure,
  bayPiles,
  plantPressure,
  serviceStress,
  baySettlement,
  bayTilt,
  wallSurcharge,
  haulVehicle,
  haulPayload,
  haulPressure,
  haulLine,
  haulRoad,
  haulWall,
  lineClearance,
  cradleSliding,
  ringsClosed,
  ringsChance,
  ringsOpening,
  restartReaction,
  restartBearing,
  restartRoll,
  jackLoad,
  jackShell,
  jackFree,
  jackBearing,
  jackBursting,
  cradleSplitting,
  driveInThrust,
  breakInPush,
  breakInWall,
  breakInTorque,
  breakInHeld,
  driveInRoll,
  eyeSeal,
  fillVolume,
  neighbour,
  instrumentReading,
  instrumentTrend,
  instrumentDue,
  runwayLevel,
  decision,
]
