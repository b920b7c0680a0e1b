import { useShown } from '../state.ts'

const FILES = [
  ['programme.csv', 'programme, CSV'],
  ['shift.csv', 'shift, CSV'],
  ['look-ahead.csv', 'look-ahead, CSV'],
  ['tables.xlsx', 'all tables, XLSX'],
  ['dates.ics', 'lifts, hold points and deliveries, iCalendar'],
  ['progress.csv', 'form for progress, CSV'],
] as const

/** The plan as files: from the kept project, not from an edit that is still looked at. */
export function Downloads() {
  const { system } = useShown()
  return (
    <p className="small quiet">
      As a file: <a href={`/api/report/programme/programme.pdf?units=${system}`}>sheets to print, PDF</a>
      {FILES.map(([file, words]) => (
        <span key={file}>
          {' · '}
          <a href={`/api/exchange/${file}?units=${system}`} download={file}>
            {words}
          </a>
        </span>
      ))}
    </p>
  )
}
