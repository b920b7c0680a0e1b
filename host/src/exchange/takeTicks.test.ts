import { applyPatch } from '@shieldwright/engine/working/patch.ts'
import { problemText } from '@shieldwright/engine/working/problem.ts'
import { describe, expect, test } from 'vitest'
import { contentHash } from '../project/contentHash.ts'
import { bytesOf, derived, smallPlan } from './exchange.fixture.ts'
import { LARGEST_TICKS, type TakenTicks, takeTicks } from './takeTicks.ts'

type Raw = Readonly<Record<string, unknown>>

const HOSE = {
  kind: 'hose',
  medium: 'oil',
  from: 'tank',
  to: 'pump',
  isolation: 'ISO-1',
  timeOff: '7 min',
  timeOn: '9 min',
}
const SAYS = {
  'H-1': 'tag H-1 · hose, oil · tank to pump · isolation ISO-1',
  'H-2': 'tag H-2 · hose, oil · tank to pump · isolation ISO-1',
  'ISO-1': 'Pump supply · electrical · switchroom',
}

/** Two hoses behind one isolation, and a plan of three activities; whatever else is given. */
const plant = (services: Raw = {}, programme: Raw = {}): Raw =>
  smallPlan(
    { dataDate: '2032-03-10', ...programme },
    {
      ends: { tank: { name: 'Tank' }, pump: { name: 'Pump' } },
      isolations: { 'ISO-1': { what: 'Pump supply', kind: 'electrical', where: 'switchroom' } },
      services: { 'H-1': HOSE, 'H-2': HOSE, ...services },
    },
  )

const at = '2032-03-08T07:41+01:00'
/** When the ticks are brought back. */
const NOW = '2032-03-09T06:30Z'
const tick = (place: string, says: string, by = 'A. Fitter', on = at): Raw => ({ at: place, says, by, on })
const parted = (id: 'H-1' | 'H-2', by?: string): Raw => tick(`/services/${id}/parted`, SAYS[id], by)

const fileOf = (ticks: readonly Raw[], more: Raw = {}, from: unknown = plant()): Raw => ({
  form: 'shieldwright on-site ticks',
  version: 1,
  project: 'Small',
  revision: '3',
  content: contentHash(from),
  scope: 'step S04',
  issued: '2032-03-08',
  exported: '2032-03-08T17:00+01:00',
  ticks,
  ...more,
})

interface Taking {
  document?: Raw
  more?: Raw
  also?: string[]
  dataDate?: string
  now?: string
}

function answered(ticks: readonly Raw[], { document = plant(), more, also, dataDate, now = NOW }: Taking = {}) {
  const { derivation, stages } = derived(document)
  const bytes = bytesOf(JSON.stringify(fileOf(ticks, more)))
  return { document, answer: takeTicks(derivation, stages, { bytes, now: new Date(now), also, dataDate }) }
}

function taken(
  ticks: readonly Raw[],
  taking: Taking = {},
): TakenTicks & { after: Record<string, Record<string, Raw>> } {
  const { document, answer } = answered(ticks, taking)
  if ('problems' in answer) throw new Error(answer.problems.map(problemText).join('\n'))
  const patched = applyPatch(document, answer.patch)
  if (!('document' in patched)) throw new Error('the patch does not apply')
  return { ...answer, after: patched.document as Record<string, Record<string, Raw>> }
}

const refusalOf = (raw: unknown): string => {
  const { derivation, stages } = derived(plant())
  const bytes = bytesOf(typeof raw === 'string' ? raw : JSON.stringify(raw))
  const answer = takeTicks(derivation, stages, { bytes, now: new Date(NOW) })
  return 'problems' in answer ? answer.problems.map(problemText).join('\n') : ''
}

describe('what ticks become', () => {
  test('a hose is out, by whom and on which day, with the tag that was read; the other stays as it was', () => {
    const { after, taken: lines, listed, issue } = taken([tick('/services/H-1/parted/tag', SAYS['H-1']), parted('H-1')])
    expect(after.services?.['H-1']?.parted).toEqual({ by: 'A. Fitter', on: '2032-03-08', tag: 'H-1' })
    expect(after.services?.['H-2']).toEqual(HOSE)
    expect(lines.map((l) => l.becomes).sort()).toEqual(['out', 'read'])
    expect(listed).toEqual([])
    expect(issue.isCurrent).toBe(true)
  })

  test('a hose is back with tag, port and the other person who looked', () => {
    const place = (field: string) => `/services/H-2/joined${field}`
    const { after, taken: lines } = taken([
      tick(place('/checkedBy'), SAYS['H-2'], 'Foreman'),
      tick(place('/port'), SAYS['H-2']),
      tick(place('/tag'), SAYS['H-2']),
      tick(place(''), SAYS['H-2']),
    ])
    const joined = { by: 'A. Fitter', on: '2032-03-08', tag: 'H-2', port: 'H-2', checkedBy: 'Foreman' }
    expect(after.services?.['H-2']?.joined).toEqual(joined)
    expect(lines.map((l) => l.becomes).sort()).toEqual(['back', 'checked', 'read', 'read'])
  })

  test('acts of an isolation are signed each, and an activity is begun and done at the minute of its tick', () => {
    const done = '2032-03-08T15:00+01:00'
    const { after, taken: lines } = taken([
      tick('/isolations/ISO-1/signed/isolated', SAYS['ISO-1']),
      tick('/isolations/ISO-1/signed/proved', SAYS['ISO-1'], 'B. Electrician'),
      tick('/programme/progress/A/finish', 'Dig', 'Foreman', done),
      tick('/programme/progress/A/start', 'Dig'),
    ])
    expect(after.isolations?.['ISO-1']?.signed).toEqual({
      isolated: { by: 'A. Fitter', on: '2032-03-08' },
      proved: { by: 'B. Electrician', on: '2032-03-08' },
    })
    expect(after.programme?.progress).toEqual({ A: { start: at, finish: done } })
    expect(lines.map((l) => l.becomes).sort()).toEqual(['begun', 'done', 'isolated', 'proved'])
  })

  test('what is finished has nothing left', () => {
    const document = plant({}, { progress: { A: { start: '2032-03-02', remainingDays: 2, note: 'wet' } } })
    const { after } = taken([tick('/programme/progress/A/finish', 'Dig')], { document })
    expect(after.programme?.progress).toEqual({ A: { start: '2032-03-02', note: 'wet', finish: at } })
  })

  test('the same file once more changes nothing', () => {
    const ticks = [parted('H-1'), tick('/services/H-1/parted/tag', SAYS['H-1'])]
    const { after } = taken(ticks)
    const again = taken(ticks, { document: after })
    expect(again.patch).toEqual([])
    expect(again.same).toHaveLength(2)
    expect(again.listed).toEqual([])
  })
})

describe('lines that changed since are listed, and none is lost', () => {
  const whyOf = ({ listed }: TakenTicks): string[] => listed.map((l) => `${l.at}: ${l.why}`)

  test('another project revision alone takes nothing away: lines that say what they said are taken', () => {
    const result = taken([parted('H-1')], { document: plant({ 'H-3': HOSE }) })
    expect(result.issue.isCurrent).toBe(false)
    expect(result.taken).toHaveLength(1)
  })

  test('a line that says something else now is taken only when a person says so, with the tag that was read', () => {
    const document = plant({ 'H-1': { ...HOSE, tag: 'H-1-NEW' } })
    const ticks = [parted('H-1'), tick('/services/H-1/parted/tag', SAYS['H-1']), parted('H-2')]
    const result = taken(ticks, { document })
    expect(result.taken.map((l) => l.at)).toEqual(['/services/H-2/parted'])
    expect(whyOf(result)[0]).toContain('the line says now: tag H-1-NEW')
    expect(result.listed.every((l) => l.canBeTaken)).toBe(true)
    const all = taken(ticks, { document, also: result.listed.map((l) => l.at) })
    expect(all.listed).toEqual([])
    expect(all.after.services?.['H-1']?.parted).toEqual({ by: 'A. Fitter', on: '2032-03-08', tag: 'H-1' })
  })

  test('a service that is gone, and one that another has recorded, keep what was ticked of them in sight', () => {
    const document: Raw = {
      ...plant(),
      services: { 'H-2': { ...HOSE, parted: { by: 'Night fitter', on: '2032-03-07' } } },
    }
    const result = taken([parted('H-1'), parted('H-2'), tick('/services/H-2/parted/tag', SAYS['H-2'])], { document })
    expect(result.patch).toEqual([])
    expect(result.listed).toHaveLength(3)
    expect(whyOf(result)).toEqual([
      expect.stringContaining('no longer in the project'),
      expect.stringContaining('recorded already, by Night fitter on 2032-03-07'),
      expect.stringContaining('Night fitter is recorded with it'),
    ])
  })

  test('who joined a hose is not the second person who looks at it', () => {
    const result = taken([
      tick('/services/H-1/joined', SAYS['H-1']),
      tick('/services/H-1/joined/checkedBy', SAYS['H-1']),
    ])
    expect(result.after.services?.['H-1']?.joined).toEqual({ by: 'A. Fitter', on: '2032-03-08' })
    expect(whyOf(result)[0]).toContain('another person has to look')
  })

  test('a tag that was read of a hose that nobody parted, and a clock that stood in another year', () => {
    const early = tick('/services/H-2/parted', SAYS['H-2'], 'A. Fitter', '2001-01-01T07:41+01:00')
    expect(whyOf(taken([tick('/services/H-1/parted/tag', SAYS['H-1']), early]))).toEqual([
      expect.stringContaining('the clock of the device was wrong'),
      expect.stringContaining('nobody ticked that it was parted'),
    ])
  })

  test('a tick that is later than its own file was given out is not taken: a clock set back, or a file changed by hand', () => {
    const late = tick('/services/H-1/parted', SAYS['H-1'], 'A. Fitter', '2032-03-08T17:01+01:00')
    const result = taken([late, parted('H-2')])
    expect(whyOf(result)).toEqual([expect.stringContaining('after the ticks were given out on 2032-03-08T17:00+01:00')])
    expect(result.taken.map((l) => l.at)).toEqual(['/services/H-2/parted'])
    // the same moment told from another zone is not later
    const elsewhere = tick('/services/H-1/parted', SAYS['H-1'], 'A. Fitter', '2032-03-08T16:00Z')
    expect(taken([elsewhere]).listed).toEqual([])
  })

  test('a tick of a time that is still to come is not taken, nor by a person: nothing has been done later than now', () => {
    // brought back at noon, ticked that afternoon; the file says that it was given out later still
    const taking = { now: '2032-03-08T11:00Z', more: { exported: '2032-03-08T18:00Z' } }
    const late = tick('/services/H-1/parted', SAYS['H-1'], 'A. Fitter', '2032-03-08T15:00Z')
    for (const also of [[], ['/services/H-1/parted']]) {
      const result = taken([late], { ...taking, also })
      expect(result.patch).toEqual([])
      expect(result.listed).toMatchObject([{ canBeTaken: false }])
      expect(whyOf(result)[0]).toContain('2032-03-08T15:00Z, which is still to come')
      expect(whyOf(result)[0]).toContain('ahead of that of the host, by 4 h')
    }
  })

  test('of a tablet whose clock is ahead throughout every tick is told, also one of a time gone by; a person may take that', () => {
    const taking = { now: '2032-03-08T11:00Z', more: { exported: '2032-03-08T18:00Z' } }
    const result = taken([parted('H-1'), parted('H-2')], taking)
    expect(result.patch).toEqual([])
    expect(result.listed.map((l) => l.canBeTaken)).toEqual([true, true])
    expect(whyOf(result)[0]).toContain('given out on 2032-03-08T18:00Z, which is still to come')
    const also = ['/services/H-1/parted']
    const one = taken([parted('H-1'), parted('H-2')], { ...taking, also })
    expect(one.after.services?.['H-1']?.parted).toEqual({ by: 'A. Fitter', on: '2032-03-08' })
    expect(one.listed.map((l) => l.at)).toEqual(['/services/H-2/parted'])
    // once that time has come, nothing shows it any more
    expect(taken([parted('H-1')], { ...taking, now: '2032-03-08T18:00Z' }).listed).toEqual([])
  })

  test('a clock ahead and a line that changed since are told together', () => {
    const document = plant({ 'H-1': { ...HOSE, tag: 'H-1-NEW' } })
    const result = taken([parted('H-1')], { document, now: '2032-03-08T11:00Z' })
    expect(whyOf(result)[0]).toMatch(/still to come.*the line says now: tag H-1-NEW/)
  })

  test('a clock some minutes ahead is that of any device without a network', () => {
    const taking = (now: string) => taken([parted('H-1')], { now }).listed.length
    expect([taking('2032-03-08T15:56Z'), taking('2032-03-08T15:54Z')]).toEqual([0, 1])
  })

  test('two tablets of one shift: what both ticked stands once, by who was brought back first, and each tells what the other has', () => {
    const first = taken([parted('H-1', 'A. Fitter')])
    const second = taken([parted('H-1', 'B. Rigger'), parted('H-2', 'B. Rigger')], { document: first.after })
    expect(second.taken.map((l) => l.at)).toEqual(['/services/H-2/parted'])
    expect(whyOf(second)).toEqual([expect.stringContaining('recorded already, by A. Fitter on 2032-03-08')])
    expect(second.after.services?.['H-1']?.parted).toEqual({ by: 'A. Fitter', on: '2032-03-08' })
    const same = taken([parted('H-1', 'A. Fitter')], { document: second.after })
    expect([same.patch, same.same.length, same.listed]).toEqual([[], 1, []])
  })

  test('progress after the data date waits for a later one; without a data date there is none', () => {
    const ticks = [tick('/programme/progress/A/start', 'Dig'), parted('H-1')]
    for (const dataDate of ['2032-03-05', undefined]) {
      const result = taken(ticks, { document: plant({}, { dataDate }) })
      expect(result.taken.map((l) => l.at)).toEqual(['/services/H-1/parted'])
      expect(result.listed).toHaveLength(1)
      const moved = taken(ticks, { document: plant({}, { dataDate }), dataDate: '2032-03-08' })
      expect(moved.after.programme?.dataDate).toBe('2032-03-08')
      expect(moved.listed).toEqual([])
    }
  })

  test('what the project refuses is listed with what it says, and the rest is taken', () => {
    const finish = tick('/programme/progress/A/finish', 'Dig', 'Foreman', '2032-03-08T05:00+01:00')
    const result = taken([tick('/programme/progress/A/start', 'Dig'), finish, parted('H-1')])
    expect(result.taken.map((l) => l.at)).toContain('/services/H-1/parted')
    expect(whyOf(result).join()).toContain('a date not before its start')
    expect(result.taken.length + result.listed.length).toBe(3)
  })

  test('ticks on a sheet are given back as notes', () => {
    const note = tick('sheet/head-out/3', '')
    expect(taken([note])).toMatchObject({ patch: [], noted: [note], listed: [] })
  })
})

describe('a hostile file is refused whole, with what is wrong', () => {
  test.each([
    ['another project', fileOf([parted('H-1')], { project: 'Other' }), 'expected ticks of this project, "Small"'],
    ['another form', { hello: 1 }, '/form'],
    ['no JSON at all', '\u0003\u0004', 'control character'],
    ['a workbook', 'PK\u0003\u0004', 'found a workbook (XLSX) or another ZIP archive'],
    ['nothing', '', 'found an empty file'],
    ['half a file', '{"form":', 'the end of the text'],
    ['a script for a name', fileOf([parted('H-1', '<script>alert(1)</script>')]), '/ticks/0/by'],
    ['a name that turns the text round', fileOf([parted('H-1', 'A\u202egnp.exe')]), '/ticks/0/by'],
    ['no name', fileOf([parted('H-1', '  ')]), '/ticks/0/by'],
    ['an address outside the lists', fileOf([tick('/about/title', 'x')]), '/ticks/0/at'],
    ['an address of the machinery', fileOf([tick('/services/__proto__/parted', 'x')]), '/ticks/0/at'],
    ['a time that is none', fileOf([tick('/services/H-1/parted', SAYS['H-1'], 'A', 'soon')]), '/ticks/0/on'],
    ['one line twice', fileOf([parted('H-1'), parted('H-1')]), 'each line once'],
    ['a field too many', fileOf([{ ...parted('H-1'), patch: [] }]), '/ticks/0/patch'],
    ['a name given twice', `{"form":"shieldwright on-site ticks","form":"x"}`, 'form'],
    ['too many', fileOf(Array.from({ length: 20_001 }, () => parted('H-1'))), 'at most 20000 entries'],
    ['too large', ' '.repeat(LARGEST_TICKS + 1), `at most ${LARGEST_TICKS} bytes`],
    ['too deep', '['.repeat(100_000), 'within each other'],
  ])('%s', (_, raw, said) => {
    expect(refusalOf(raw)).toContain(said)
  })
})
