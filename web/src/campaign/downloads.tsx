import { useShown } from '../state.ts'

const FILES = [
  ['programme.csv', 'programme, CSV'],
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
      As a file:{' '}
      {FILES.map(([file, words], i) => (
        <span key={file}>
          {i > 0 && ' · '}
          <a href={`/api/exchange/${file}?units=${system}`} download={file}>
            {words}
          </a>
        </span>
      ))}
    </p>
  )
}
