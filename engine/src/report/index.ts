export { type ReportResult, report } from './report.ts'
