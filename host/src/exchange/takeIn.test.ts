import { changeDerivation } from '@shieldwright/engine'
import { applyPatch } from '@shieldwright/engine/working/patch.ts'
import { problemText } from '@shieldwright/engine/working/problem.ts'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import writeXlsxFile from 'write-excel-file/node'
import { demoDocument } from '../../../engine/src/demo.fixture.ts'
import { bytesOf, derived, onePiece, smallPlan } from './exchange.fixture.ts'
import { csvFile, workbook } from './files.ts'
import { LARGEST_TABLE, readTable } from './readTable.ts'
import { type TableFile, takeIn } from './takeIn.ts'
import { zipOf } from './zip.fixture.ts'

type Raw = Readonly<Record<string, unknown>>

const ISSUE = { units: 'SI', at: '2032-03-05T00:00:00Z', sequence: 0 } as const
const known = derived(smallPlan({ dataDate: '2032-03-10' }))

async function taken(bytes: Uint8Array | string, of: TableFile['of'] = 'progress', from = known) {
  const file = { bytes: typeof bytes === 'string' ? bytesOf(bytes) : bytes, name: 'table', of }
  return takeIn(from.derivation, from.stages, file)
}

async function refused(bytes: Uint8Array | string, of: TableFile['of'] = 'progress', from = known): Promise<string[]> {
  const result = await taken(bytes, of, from)
  return ('problems' in result ? result.problems : result.refused).map(problemText)
}

describe('the register of services', () => {
  const demo = derived(demoDocument())
  const written = (units: 'SI' | 'US') => csvFile(demo.stages, 'services', { ...ISSUE, units })

  test.each(['SI', 'US'] as const)('comes back as it was written and changes nothing, %s', async (units) => {
    const result = await taken(written(units), 'services', demo)
    expect('problems' in result ? result.problems : result.refused).toEqual([])
    expect(result).toMatchObject({ taken: 0, same: 107, patch: [] })
  })

  test('who parted and who joined a hose, filled in on paper, are one patch; what the row leaves empty stays', async () => {
    const head = 'service,parted by,parted on,tag off,joined by,joined on,tag on,port,checked by'
    const rows = 'W-MM01I,Fitter,2032-10-19,W-MM01I,Other fitter,2033-01-20,W-MM01I,W-MM01I,Foreman'
    const result = await taken(`${head}\n${rows}\n`, 'services', demo)
    expect('patch' in result && result.patch.map((o) => o.path)).toEqual(['/services/W-MM01I'])
    expect('patch' in result && result.patch[0]).toMatchObject({
      value: { medium: 'cooling water', joined: { by: 'Other fitter', port: 'W-MM01I', checkedBy: 'Foreman' } },
    })
  })

  test('a new service lacks nothing that it needs, and a place that is none is named at its row', async () => {
    const head = 'service,kind,medium,from,to,"time off, min","time on, min"'
    expect(await refused(`${head}\nN-1,hose,oil,FS-CR,MD-MOT-01,7,\n`, 'services', demo)).toEqual([
      expect.stringContaining('row 2, column "time on"'),
    ])
    expect(await refused(`${head}\nN-1,hose,oil,FS-CR,MD-MOT-99,7,9\n`, 'services', demo)).toEqual([
      expect.stringContaining('MD-MOT-99'),
    ])
    expect(await taken(`${head}\nN-1,hose,oil,FS-CR,MD-MOT-01,7,9\n`, 'services', demo)).toMatchObject({ taken: 1 })
  })

  test('five thousand lines come in, and the bad one among them is named alone', async () => {
    const lines = Array.from(
      { length: 5000 },
      (_, i) => `N-${i},hose,oil,FS-CR,MD-MOT-01,${i === 4321 ? 'soon' : '7 min'},9 min`,
    )
    const text = `service,kind,medium,from,to,time off,time on\n${lines.join('\n')}\n`
    const result = await taken(text, 'services', demo)
    if ('problems' in result) throw new Error(result.problems.map(problemText).join())
    expect(result.refused.map(problemText)).toEqual([expect.stringContaining('row 4323, column "time off"')])
    expect(result.taken).toBe(4999)
  })
})

describe('what a table says', () => {
  test('is a patch to look at, and what follows from it; the project stays as it is', async () => {
    const before = structuredClone(known.derivation.document)
    const result = await taken(
      'activity,start,finish,remaining days\nA,2032-03-01,2032-03-03,\nB,2032-03-04T09:30,,2 / 3 / 5\n',
    )
    if ('problems' in result) throw new Error(result.problems.map(problemText).join())
    expect(result.patch).toEqual([
      { op: 'add', path: '/programme/progress', value: {} },
      { op: 'add', path: '/programme/progress/A', value: { start: '2032-03-01', finish: '2032-03-03' } },
      { op: 'add', path: '/programme/progress/B', value: { start: '2032-03-04T09:30', remainingDays: [2, 3, 5] } },
    ])
    expect(result.follows?.after.restart.planned).not.toBe(result.follows?.before.restart.planned)
    expect(known.derivation.document).toEqual(before)
  })

  test('an empty cell takes nothing away, and what is finished has nothing left', async () => {
    const from = derived(
      smallPlan({ dataDate: '2032-03-10', progress: { A: { start: '2032-03-01', remainingDays: 2, note: 'wet' } } }),
    )
    const result = await taken('activity,start,finish\nA,,2032-03-05\nB,,\n', 'progress', from)
    expect('patch' in result && result.patch).toEqual([
      {
        op: 'replace',
        path: '/programme/progress/A',
        value: { start: '2032-03-01', finish: '2032-03-05', note: 'wet' },
      },
    ])
  })

  test('a delivery that has arrived is the end of its activity', async () => {
    const result = await taken('delivery,ordered,arrived\nseals,2032-03-03,2032-03-09\n', 'deliveries')
    expect('patch' in result && result.patch.at(-1)).toEqual({
      op: 'add',
      path: '/programme/progress/B',
      value: { start: '2032-03-03', finish: '2032-03-09' },
    })
  })

  test('a weighing and a surveyed point come in with their units', async () => {
    const from = derived(smallPlan({}, onePiece))
    const weighing = await taken(
      'weighing;piece;measured;accuracy;date\nw1;crown;32.4 t;1.5 %;2032-03-09\n',
      'weighings',
      from,
    )
    expect('patch' in weighing && weighing.patch.at(-1)).toEqual({
      op: 'add',
      path: '/weighings/w1',
      value: { piece: 'crown', measured: '32.4 t', accuracy: '1.5 %', date: '2032-03-09' },
    })
    const survey = await taken(
      'point,machine x,machine y,machine z,site x,site y,site z,accuracy\nflange,0 m,3 m,0 m,3.01 m,3 m,-29 m,3 mm\n',
      'as-built',
      from,
    )
    expect('patch' in survey && survey.patch.at(-1)).toEqual({
      op: 'add',
      path: '/machine/pose/survey/flange',
      value: { machine: ['0 m', '3 m', '0 m'], site: ['3.01 m', '3 m', '-29 m'], accuracy: '3 mm' },
    })
  })

  test('readings of instruments come in by their moment; another unit, instrument or form of a date is refused', async () => {
    const pin = { what: 'pin', measures: 'settlement', alert: '6 mm', action: '10 mm', alarm: '14 mm' }
    const layers = { sand: { name: 'sand', top: '0 m', bottom: '-9 m', unitWeight: '18 kN/m3' } }
    const ground = { surface: '0 m', layers, instruments: { pin: { ...pin, readings: { '2032-03-01': '1 mm' } } } }
    const from = derived(smallPlan({}, { ground }))
    const good = await taken(
      'instrument,on,reading\npin,2032-03-08T07:30,2.5 mm\npin,2032-03-01,1 mm\n',
      'readings',
      from,
    )
    expect('patch' in good && [good.patch, good.same]).toEqual([
      [{ op: 'add', path: '/ground/instruments/pin/readings/2032-03-08T07:30', value: '2.5 mm' }],
      1,
    ])
    const bad = ['pin,2032-03-08,3', 'pin,2032-03-08,3 kPa', 'pim,2032-03-08,3 mm', 'pin,03/04/2032,3 mm', 'pin,,3 mm']
    const said = await refused(`instrument,on,reading\n${bad.join('\n')}\n`, 'readings', from)
    expect(said.map((text) => text.slice(0, 24))).toEqual([
      'row 2, column "reading":',
      'row 3, column "reading":',
      'row 4, column "instrumen',
      'row 5, column "on": foun',
      'row 6, column "on": foun',
    ])
    expect(said[2]).toContain('did you mean "pin"?')
  })

  test('piles of the shaft wall come in as surveyed; one without all of its places is refused', async () => {
    const wall = { kind: 'secant piles', pileDiameter: '1.2 m', piles: 53, ringDiameter: '13.6 m', toe: '-24 m' }
    const levels = { collar: '0 m', slabTop: '-18 m', slabThickness: '1 m', excavation: '-19 m', barrier: '1 m' }
    const from = derived(smallPlan({}, { shaft: { clearDiameter: '12 m', ...levels, wall } }))
    const heading = 'pile,head x,head y,low x,low y,low z\n'
    const good = await taken(`${heading}P1,6.8 m,0 m,6.83 m,0.01 m,-20 m\n`, 'piles', from)
    expect('patch' in good && good.patch.at(-1)).toEqual({
      op: 'add',
      path: '/shaft/wall/asBuilt/P1',
      value: { head: ['6.8 m', '0 m'], low: ['6.83 m', '0.01 m'], lowAt: '-20 m' },
    })
    expect(await refused(`${heading}P1,6.8 m,0 m,,0.01 m,-20\n`, 'piles', from)).toEqual([
      expect.stringContaining('row 2, column "low z"'),
      expect.stringContaining('row 2, column "low x"'),
    ])
    expect((await refused(`${heading}P1,6.8 m,0 m,6.8 m,0 m,2 m\n`, 'piles', from)).join()).toContain(
      'below the collar',
    )
    const deeper = `${heading}P1,6.8 m,0 m,6.83 m,0.01 m,-8 m\nP1,,,6.9 m,0.02 m,-14 m\nP1,,,6.85 m,0 m,-20 m\n`
    const more = await taken(deeper, 'piles', from)
    expect('patch' in more && more.patch.at(-1)).toMatchObject({
      value: {
        head: ['6.8 m', '0 m'],
        between: [
          { at: ['6.83 m', '0.01 m'], z: '-8 m' },
          { at: ['6.9 m', '0.02 m'], z: '-14 m' },
        ],
        low: ['6.85 m', '0 m'],
        lowAt: '-20 m',
      },
    })
    const upwards = `${heading}P1,6.8 m,0 m,6.83 m,0.01 m,-14 m\nP1,,,6.9 m,0.02 m,-8 m\n`
    expect((await refused(upwards, 'piles', from)).join()).toContain('below the point surveyed before it')
    expect((await refused(`${heading}P1,,,6.8 m,0 m,-20 m\n`, 'piles', from)).join()).toContain('column "head x"')
    const twice = `${heading}P1,6.8 m,0 m,6.8 m,0 m,-9 m\nP1,6.8 m,0 m,6.8 m,0 m,-20 m\n`
    expect((await refused(twice, 'piles', from)).join()).toContain('the head of each pile once')
  })

  test('panels come in by the same table, and once all are there the wall is judged by them and no more by its tolerances', async () => {
    const wall = {
      kind: 'slurry panels',
      thickness: '1.2 m',
      piles: 12,
      ringDiameter: '13.6 m',
      verticality: 0.005,
      settingOut: '20 mm',
      toe: '-24 m',
    }
    const levels = { collar: '0 m', slabTop: '-18 m', slabThickness: '1 m', excavation: '-19 m', barrier: '1 m' }
    const from = derived(smallPlan({}, { shaft: { clearDiameter: '12 m', ...levels, wall } }))
    const rows = Array.from({ length: 12 }, (_, i) => {
      const [c, s] = [Math.cos((i * Math.PI) / 6), Math.sin((i * Math.PI) / 6)]
      const low = i === 4 ? 6.75 : 6.8
      return `E${i + 1},${6.8 * c} m,${6.8 * s} m,${low * c} m,${low * s} m,-20 m`
    })
    const result = await taken(`pile,head x,head y,low x,low y,low z\n${rows.join('\n')}\n`, 'piles', from)
    if (!('patch' in result)) throw new Error('the panels are refused')
    const after = changeDerivation(from.derivation, result.patch).derivation?.derived.stages
    const bore = after?.checks.find((c) => c.kind === 'ground.bore.clear')
    // 13.6 - 1.2, and twice the lean of the fifth at the slab
    expect(bore?.capacity.value).toBeCloseTo(12.4 - 2 * 0.05 * (18 / 20), 9)
    expect(bore?.assumptions.join(' ')).toContain('All 12 panels as surveyed')
    expect(after?.checks.find((c) => c.kind === 'ground.wall.verticality')?.subject.name).toBe('Panel E5')
  })

  test('dates of a workbook are local time; one at midnight is a day', async () => {
    const at = (text: string) => ({ value: new Date(text), type: Date, format: 'yyyy-mm-dd hh:mm' })
    const book = await writeXlsxFile([
      ['activity', 'start', 'finish', 'remaining days'],
      ['A', at('2032-03-01T00:00Z'), at('2032-03-03T16:30Z')],
      ['B', at('2032-03-04T07:00Z'), null, 2.5],
    ]).toBuffer()
    const result = await taken(book)
    expect('patch' in result && result.patch.slice(1)).toEqual([
      { op: 'add', path: '/programme/progress/A', value: { start: '2032-03-01', finish: '2032-03-03T16:30' } },
      { op: 'add', path: '/programme/progress/B', value: { start: '2032-03-04T07:00', remainingDays: 2.5 } },
    ])
  })

  test('semicolons, tabs, UTF-16 with its mark and CRLF are read as they come', async () => {
    const of = (mark: string) => `${['activity', 'start', 'note'].join(mark)}\r\nA${mark}2032-03-01${mark}"ä, b"\r\n`
    const wide = Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from(of(','), 'utf16le')])
    for (const bytes of [of(';'), of('\t'), `\ufeff${of(',')}`, wide]) {
      const result = await taken(bytes)
      expect('patch' in result && result.patch.at(-1)).toEqual({
        op: 'add',
        path: '/programme/progress/A',
        value: { start: '2032-03-01', note: 'ä, b' },
      })
    }
  })
})

describe('there and back', () => {
  const time = fc.constantFrom('', 'T07:30', 'T00:00', 'T23:59+01:00', 'T06:30Z')
  // an apostrophe before a formula is ours; a text that already begins so is not told apart
  const note = fc
    .string({ unit: fc.constantFrom(...'aé😀 ,;"=+-@/\t'), minLength: 1, maxLength: 20 })
    .map((text) => text.trim())
    .filter((text) => text !== '')
  const entry = fc
    .record({
      from: fc.integer({ min: 1, max: 4 }),
      time,
      lasts: fc.integer({ min: 1, max: 5 }),
      left: fc.constantFrom(0.5, 2, [1, 2, 4]),
      note: fc.option(note, { nil: undefined }),
      isDone: fc.boolean(),
      released: fc.boolean(),
    })
    .map(({ from, time: at, lasts, left, note: said, isDone, released }) => ({
      start: `2032-03-0${from}${at}`,
      ...(isDone ? { finish: `2032-03-0${from + lasts}` } : { remainingDays: left }),
      ...(released ? { logic: 'released' } : {}),
      ...(said === undefined ? {} : { note: said }),
    }))
  const progress = fc.dictionary(fc.constantFrom('A', 'B', 'C'), entry, { noNullPrototype: true, minKeys: 1 })

  const roundTrip = async (held: Raw, form: 'csv' | 'xlsx') => {
    const full = derived(smallPlan({ dataDate: '2032-03-10', progress: held }))
    const bytes =
      form === 'csv'
        ? bytesOf(csvFile(full.stages, 'progress', ISSUE))
        : await workbook(full.stages, ISSUE, ['progress'])
    const result = await taken(bytes)
    if ('problems' in result) throw new Error(result.problems.map(problemText).join())
    expect(result.refused).toEqual([])
    const patched = applyPatch(known.derivation.document, result.patch)
    return 'document' in patched ? (patched.document as { programme: { progress: Raw } }).programme.progress : undefined
  }

  test('progress written as CSV and read again is the same', async () => {
    await fc.assert(
      fc.asyncProperty(progress, async (held) => {
        expect(await roundTrip(held, 'csv')).toEqual(held)
      }),
      { numRuns: 60 },
    )
  })

  test('and as XLSX', async () => {
    await fc.assert(
      fc.asyncProperty(progress, async (held) => {
        expect(await roundTrip(held, 'xlsx')).toEqual(held)
      }),
      { numRuns: 20 },
    )
  })

  test('what stands already changes nothing', async () => {
    const full = derived(
      smallPlan({ dataDate: '2032-03-10', progress: { A: { start: '2032-03-01', remainingDays: 1 } } }),
    )
    const result = await taken(csvFile(full.stages, 'progress', ISSUE), 'progress', full)
    expect(result).toMatchObject({ patch: [], taken: 0, same: 1, refused: [] })
  })
})

describe('every bad row is named', () => {
  test('with row, column, what was found, what is due and an example; the good ones are still looked at', async () => {
    const result = await taken(
      'activity,start,finish,remaining days\nA,03/04/2032,,\nBB,2032-03-01,,\nC,2032-03-02,,"1,5"\nB,2032-03-05,,2\nB,2032-03-06,,2\n',
    )
    if ('problems' in result) throw new Error()
    expect(result.refused.map(problemText)).toEqual([
      'row 2, column "start": found "03/04/2032", expected a date as year-month-day, with local time after it where it matters (ISO 8601); day and month are not told apart here, such as "2032-04-03"',
      'row 3, column "activity": found "BB", expected the id of an activity; did you mean "B"?',
      'row 4, column "remaining days": found "1,5", expected days as a number with a decimal point, or least / likely / greatest in rising order, such as "2 / 3.5 / 6"',
      'row 6, column "activity": found "B", expected each once; row 5 has it already',
    ])
    expect(result.refused[0]).toMatchObject({ row: 2, column: 'start' })
    expect(result.taken).toBe(1)
  })

  test('a row that the project refuses takes no other row with it', async () => {
    const result = await taken('activity,start,finish\nA,2032-03-01,2032-03-02\nB,2032-03-11,\n')
    if ('problems' in result) throw new Error()
    expect(result.taken).toBe(1)
    expect(result.patch.map(({ path }) => path)).toContain('/programme/progress/A')
    expect(result.patch.map(({ path }) => path)).not.toContain('/programme/progress/B')
    expect(result.follows).toBeDefined()
  })

  test('what the project says of a row stands at the row', async () => {
    expect(await refused('activity,start,finish\nA,2032-03-01,2032-03-02\nB,2032-03-11,\n')).toEqual([
      'row 3, column "row" (/programme/progress/B/start): found "2032-03-11", expected a date not after the data date, 2032-03-10: what has not happened is no progress, such as "2032-03-10"',
    ])
  })

  test.each([
    ['activity,begin\nA,2032-03-01\n', 'row 1, column "begin": found a column "begin"'],
    ['start,finish\n2032-03-01,\n', 'row 1, column "activity": found no such column'],
    ['activity,start,start\nA,2032-03-01,\n', 'a second column "start"'],
    ['activity,start\nA,2032-03-01,extra\n', 'row 2: found 3 cells, expected at most 2'],
    ['activity,start\n"A,2032-03-01\n', 'a quote that is never closed'],
    ['activity,start,remaining days\nA,2032-03-01,-1\n', 'column "remaining days": found "-1"'],
    ['activity,start,remaining days\nA,2032-03-01,5 / 2 / 9\n', 'in rising order'],
    ['activity,start\nA,2032-13-01\n', 'expected a date'],
    ['activity,start\nA,43920\n', 'found "43920", expected a date'],
    ['\n\n', 'no row with anything in it'],
    ['', 'an empty file'],
  ])('%j', async (text, words) => {
    expect((await refused(text)).join('\n')).toContain(words)
  })

  test('a weighing without its unit, or of a piece that is not there, is refused', async () => {
    const from = derived(smallPlan({}, onePiece))
    const said = await refused(
      'weighing,piece,measured,accuracy\nw1,crown,32.4,0.01\nw2,crow,3 t,0.01\nw3,crown,,\n',
      'weighings',
      from,
    )
    expect(said[0]).toContain('row 2, column "measured": found "32.4", expected a mass with its unit')
    expect(said[1]).toContain('row 3, column "piece": found "crow", expected the id of a piece; did you mean "crown"?')
    expect(said.slice(2).map((s) => s.slice(0, 24))).toEqual(['row 4, column "measured"', 'row 4, column "accuracy"'])
  })

  test('rows stand where a spreadsheet counts them, past empty rows and cells with lines in them', async () => {
    expect((await refused('activity,start,note\n\n"A","2032-03-01","two\nlines"\nX,2032-03-01,\n'))[0]).toContain(
      'row 4,',
    )
  })
})

describe('hostile tables', () => {
  test('an archive that unpacks to more than it says is given up', async () => {
    const bomb = zipOf('xl/worksheets/sheet1.xml', Buffer.alloc(80 * 1024 * 1024, 32), 100)
    expect(bomb.length).toBeLessThan(100_000)
    expect((await refused(bomb)).join()).toContain('bytes once unpacked')
  })

  test('a cell in the last corner of a sheet, and entities of its own, are refused before they are read', async () => {
    const sheet = (inner: string) => zipOf('xl/worksheets/sheet1.xml', Buffer.from(inner))
    expect((await refused(sheet('<worksheet><sheetData><row r="1"><c r=\'XFD1048576\'/></row>')))[0]).toContain(
      'a cell XFD1048576',
    )
    expect((await refused(sheet('<worksheet><dimension ref="A1:XFD9"/>')))[0]).toContain('a cell XFD9')
    expect((await refused(sheet('<row r="99999999">')))[0]).toContain('a cell 99999999')
    expect((await refused(sheet('<!DOCTYPE x [<!ENTITY a "aaaa">]><worksheet/>')))[0]).toContain(
      'a document type of its own',
    )
  })

  test('what begins as an archive and is none, or none that is a workbook, is refused', async () => {
    expect((await refused('PK nothing'))[0]).toContain('the archive has no end')
    expect((await refused(zipOf('a.txt', Buffer.from('hello'))))[0]).toContain('no workbook')
    const cut = zipOf('a.txt', Buffer.from('hello'))
    cut.writeUInt32LE(0xfffffff0, cut.length - 6)
    expect((await refused(cut))[0]).toContain('a broken archive')
  })

  test.each([
    ['solid hub\n facet normal 0 0 1\n', 'a mesh (STL)'],
    ['{ "asset": { "version": "2.0" }, "buffers": [{ "uri": "elsewhere.bin" }] }', 'a mesh (glTF)'],
    ['%PDF-1.7\n', 'a document (PDF)'],
    ['<!doctype html>\n', 'a web page (HTML)'],
  ])('a file of another kind is called what it is: %s', async (text, kind) => {
    expect(await refused(text)).toEqual([
      expect.stringMatching(new RegExp(`${kind.replace(/[()]/g, '.')}.*expected.*such as`)),
    ])
  })

  test('formulas in cells are texts: none is computed, and one where an id is due names nothing', async () => {
    const formula = '=HYPERLINK("https://elsewhere.invalid";"A")'
    const result = await taken(`activity,start,note\nA,2032-03-01,"${formula.replaceAll('"', '""')}"\n`)
    expect(result).toMatchObject({ taken: 1, refused: [] })
    expect(JSON.stringify('patch' in result && result.patch)).toContain(JSON.stringify(formula).slice(1, -1))
    expect((await refused(`activity,start\n=1+1,2032-03-01\n`)).join()).toContain('=1+1')
  })

  test('bytes that are no text are named with their line', async () => {
    const latin = Buffer.concat([bytesOf('activity,note\nA,'), Buffer.from([0xe4]), bytesOf('\n')])
    expect((await refused(latin))[0]).toContain('bytes that are no UTF-8 in line 2')
    expect((await refused('activity\0,start'))[0]).toContain('bytes of zero')
  })

  test('a table past its bounds is refused, not read', async () => {
    expect((await refused(new Uint8Array(LARGEST_TABLE + 1)))[0]).toContain(`at most ${LARGEST_TABLE}`)
    const long = `activity,start\n${'A,2032-03-01\n'.repeat(20_001)}`
    expect((await refused(long))[0]).toContain('more than 20000 rows')
    const wide = `activity${',x'.repeat(100)}\n`
    expect((await refused(wide))[0]).toContain('101 cells')
  })

  test('no bytes at all bring it down', async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 300 }), fc.boolean(), async (bytes, isArchive) => {
        const read = await readTable(isArchive ? Buffer.concat([Buffer.from('PK\x03\x04'), bytes]) : bytes, 'table')
        expect('rows' in read || read.problems.length > 0).toBe(true)
      }),
      { numRuns: 200 },
    )
  })

  test('columns named as parts of every object are columns that nobody knows', async () => {
    expect((await refused('activity,__proto__,constructor\nA,1,2\n')).join()).toContain('a column "__proto__"')
  })
})
