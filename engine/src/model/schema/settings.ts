import { z } from 'zod'
import { angle, duration, id, length, massBasis, quantity, ratio, share } from './field.ts'

/** Limits and rules the project sets. Each is a decision; one left out leaves what needs it open. */
export const settings = z.strictObject({
  near: ratio('use from which a passing check is near').default({ kind: 'given', unit: '1', value: 0.9, pointer: '' }),
  units: z.enum(['SI', 'US']).default('SI'),
  /** How uncertainties of parts combine in a lift. */
  uncertainty: z.enum(['independent', 'correlated']).default('independent'),
  /** Contingency on a mass by its basis. */
  allowance: z.partialRecord(massBasis, ratio('share of the mass')).default({}),
  /** Uncertainty factor between a standard and the one used in bands, such as 2. */
  coverage: ratio('coverage factor').optional(),
  criticalUse: share('largest use of the rating in a critical lift').optional(),
  criticalShare: share('share of the rating from which a lift is critical').optional(),
  criticalReplacement: duration('time to replace a piece from which its lift is critical').optional(),
  clearanceInShaft: length('clearance to be kept in the shaft').optional(),
  clearanceOverBarrier: length('clearance over the barrier').optional(),
  clearanceToStanding: length('clearance of a hanging piece to what stands on the bays').optional(),
  clearanceToBoom: length('clearance of piece, rigging and block to the boom of their crane').optional(),
  tilt: angle('largest tilt of a hanging piece').optional(),
  legAngle: angle('largest angle of a leg from the vertical').optional(),
  outOfPlumb: angle('largest hoist line out of plumb').optional(),
  lineClearance: length('clearance of a hoist line or sling to the piece it turns').optional(),
  weightBand: ratio('band of a load reading about the planned mass').optional(),
  cogShift: length('shift of the centre of gravity allowed for').optional(),
  airDensity: quantity('kg/m3', 'density of air', { above: 0 }).optional(),
  /** Tag lines: pull that the people on one line can hold, and how steep it runs down to them. */
  tagLine: z
    .strictObject({
      pull: quantity('N', 'pull of the people on one tag line', { least: 0 }),
      slope: angle('slope of a tag line below the level'),
    })
    .optional(),
  /** Decided by the lift director: hung so low over its bay a piece may wait, wind included. */
  lowOverBay: length('height over its bay at which a hanging piece may wait').optional(),
  sideLoad: ratio('permitted horizontal force at the hook as a share of the load').optional(),
  /** Fall zone beside the outline of a hanging piece; decided by the safety lead. */
  fallZone: z
    .strictObject({ width: length('all round'), perHeight: ratio('more per height of the piece over the ground') })
    .optional(),
  /** Kept in hand between the end of a lift and the end of its shift, of daylight and of the forecast. */
  liftReserve: duration('time kept in hand in a lift').optional(),
  overlapTolerance: length('overlap of rough models that is tolerated').optional(),
  contactGap: length('gap across which two faces still count as touching').optional(),
  surveyTolerance: length('residual of the pose against survey').optional(),
  supportMargin: length('least distance of a centre of gravity inside its support').optional(),
  /** Least coefficient of friction, faces and bed, that what is not tied may be held by; left out: none. */
  contactFriction: ratio('coefficient of friction that may be counted on between faces at rest').optional(),
  sidewaysShare: ratio('share of its weight, sideways, that what contact alone holds must bear').optional(),
  /** Longest use of a hose from the day it was made, in years. */
  hoseYears: quantity('1', 'longest use of a hose, years', { above: 0 }).optional(),
  drainCapacity: quantity('m3', 'tray, tank and spill kit at a cut', { least: 0 }).optional(),
  toolChange: duration('time to set up or change a tool at a joint').optional(),
  /** What the cheapest order counts, as shares of hours; each left out counts as the default of the search. */
  orderCost: z
    .strictObject({
      liftingSystem: duration('time on the lifting system that one piece takes, out and back').optional(),
      crew: ratio('people on a joint or service at a time').optional(),
      hour: ratio('weight of an hour of work of one person').optional(),
      liftingHour: ratio('weight of an hour on the lifting system').optional(),
      risk: ratio('weight of a hundred tonnes in the air, for each piece, in hours').optional(),
      support: duration('to build and strike a temporary support').optional(),
    })
    .optional(),
  /** What a search may lift as one, by parts or entries of parts. */
  grouping: z
    .strictObject({
      together: z.array(z.array(id).min(2)).optional(),
      apart: z.array(z.array(id).min(2)).optional(),
      most: z.int().min(1).max(4).optional(),
    })
    .optional(),
  deliveryReserve: ratio('days of reserve before a delivery is near').optional(),
  /** Standards that rigging is chosen and rated by, for the whole project. */
  riggingRules: z.enum(['European', 'US']).optional(),
  /** Warmest that any rigging gets, sun and what it lies on included. */
  riggingTemperature: quantity('K', 'warmest that rigging gets').optional(),
})
