export { atRows, type CellProblem, type Intake, type IntakeInput, intakeOf, type Row } from './intake.ts'
export { undefused } from './row.ts'
export { SHEET_KINDS, type SheetKind } from './sheets.ts'
export { type IsolationAct, type TickGround, type TickPlace, tickPlace, tickSays } from './tickPlace.ts'
