export { checkKinds } from './catalogue.ts'
export { type Changed, changeDerivation, type Derivation, startDerivation, tryChange } from './derivation.ts'
export { type Derived, derive, type Stages } from './derive.ts'
