export { type ReportResult, report } from './report.ts'
export { liftSheetPages } from './sheet/pages.ts'
export { svgOf } from './svg.ts'
