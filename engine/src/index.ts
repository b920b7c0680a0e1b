export {
  type Basis,
  type BasisChange,
  basisChanges,
  basisOf,
  type Digest,
  figuresOf,
  SIGNED_KINDS,
  type Signed,
  type SignedFigure,
  type SignedKind,
} from './basis.ts'
export { type CatalogueEntry, catalogue, checkKinds } from './catalogue.ts'
export {
  type Changed,
  changeDerivation,
  type Derivation,
  keepTried,
  type Meshes,
  moveDerivation,
  startDerivation,
  type Tried,
  tryChange,
} from './derivation.ts'
export { type Derived, derive, type Stages } from './derive.ts'
export { type PracticeCheck, practiceChecks } from './practice.ts'
export {
  type BegunSimulation,
  type BrokenScenario,
  type Chances,
  compareScenarios,
  type ScenarioOptions,
  type ScenarioRow,
  type ScenarioTable,
} from './scenarios.ts'
export {
  type CheckChange,
  type CheckState,
  type Comparison,
  checkChanges,
  checkState,
  comparedDerivations,
  instantOf,
  plannedRestart,
  type Standing,
  settingPatch,
  standing,
  type WhatIf,
  type WhatIfResult,
  whatIf,
} from './whatif.ts'
