import { spawn } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { beforeAll, describe, expect, test } from 'vitest'

const bin = fileURLToPath(new URL('../../bin/shieldwright.mjs', import.meta.url))
const folder = mkdtempSync(join(tmpdir(), 'cli-'))
const recovery = join(folder, 'recovery')
const project = join(recovery, 'project.yaml')
const LONG = 180_000

beforeAll(async () => {
  const { code, json } = await run('demo', recovery, '--json')
  expect(code).toBe(0)
  expect(json.files[0]).toBe(project)
}, LONG)

describe('on the demo recovery', () => {
  test(
    'check counts every check, and each carries the working of both sides with its inputs',
    async () => {
      const { code, json } = await run('check', project, '--json')
      const { counts, checks } = json
      expect(checks).toHaveLength(counts.pass + counts.near + counts.fail + counts.open)
      expect(code).toBe(counts.fail > 0 ? 2 : 0)
      for (const check of checks) expect(missing(check, CHECK_FIELDS), check.id).toEqual([])
      const hook = checks.find((c: Told) => c.id === 'lift.hook.use/head-drive-out/LT1-M')
      expect(hook.verdict).toBe('near')
      expect(hook.working.demand).toMatchObject({
        title: expect.any(String),
        result: { value: hook.demand, unit: 'kg' },
      })
      expect(hook.working.demand.restsOn).toContain('/parts/CH-HUB/mass/value')
      const open = checks.filter((c: Told) => c.verdict === 'open')
      for (const check of open) expect(check.reasons.length, check.id).toBeGreaterThan(0)
      expect(JSON.stringify(json)).not.toMatch(/Infinity|NaN/)
    },
    LONG,
  )

  test(
    'mass tells a piece as found, weighed and returned; a piece never weighed is a problem',
    async () => {
      const [found, returned] = await Promise.all([
        run('mass', project, '--of', 'head-drive', '--json'),
        run('mass', project, '--of', 'head-drive', '--as', 'returned', '--json'),
      ])
      expect(missing(found.json, ['mass', 'cog', 'inertia', 'bounds', 'uncertainty', 'parts'])).toEqual([])
      expect(found.json.parts).toHaveLength(79)
      expect(found.json.bounds.min[2]).toBeLessThan(found.json.cog[2])
      expect(returned.json.mass).toBeGreaterThan(found.json.mass)
      const never = await run('mass', project, '--of', 'deck', '--as', 'weighed', '--json')
      expect(never).toMatchObject({ code: 1, json: { problems: [{ pointer: '--as weighed' }] } })
    },
    LONG,
  )

  test(
    'strip finds an order; that order is verified; an order that cannot be done names what is in the way',
    async () => {
      const found = await run('strip', project, '--json')
      expect(missing(found.json, ['feasible', 'order', 'cost', 'bound', 'proven', 'moveSpace'])).toEqual([])
      expect(found.json.feasible).toBe(true)
      expect(found.json.cost).toBeGreaterThanOrEqual(found.json.bound)
      for (const step of found.json.order) {
        expect(missing(step, ['step', 'piece', 'parts', 'moves', 'joints', 'services'])).toEqual([])
        for (const move of step.moves) expect(['translate', 'rotate']).toContain(move.kind)
      }
      const order = fileOf('order.json', JSON.stringify(found.json.order))
      const wrong = fileOf('wrong.json', JSON.stringify([{ piece: 'head-drive' }]))
      const [again, refused] = await Promise.all([
        run('strip', project, '--order', order, '--json'),
        run('strip', project, '--order', wrong, '--json'),
      ])
      expect(again).toMatchObject({ code: 0, json: { feasible: true, failures: [] } })
      expect(refused).toMatchObject({ code: 2, json: { feasible: false } })
      const [failure] = refused.json.failures
      expect(missing(failure, ['step', 'piece', 'reason', 'blockers'])).toEqual([])
      expect(failure.blockers.length).toBeGreaterThan(0)
    },
    LONG,
  )

  test(
    'lift tells one lift with its legs, height, way, turning, wind and checks',
    async () => {
      const { json } = await run('lift', project, '--lift', 'head-drive-turn', '--json')
      const [lift, ...others] = json.lifts
      expect(others).toEqual([])
      expect(missing(lift, LIFT_FIELDS)).toEqual([])
      expect(lift.turning.length).toBeGreaterThan(2)
      for (const stage of lift.turning) expect(missing(stage, ['angle', 'main', 'tail'])).toEqual([])
      expect(lift.hookLoad).toBeGreaterThan(lift.mass)
      expect(await run('lift', project, '--lift', 'head-drive-trun', '--json')).toMatchObject({
        code: 1,
        json: { problems: [{ pointer: '--lift', example: 'head-drive-turn' }] },
      })
    },
    LONG,
  )

  test(
    'ground tells what stands where at each step',
    async () => {
      const { json } = await run('ground', project, '--json')
      expect(json.checks.length).toBeGreaterThan(0)
      expect(json.steps.map((s: Told) => s.step)).toContain('S19-head-drive')
      const loads = json.steps.flatMap((s: Told) => s.loads)
      expect(loads.length).toBeGreaterThan(0)
      for (const load of loads) expect(missing(load, ['id', 'what', 'at', 'force', 'on'])).toEqual([])
    },
    LONG,
  )

  test(
    'programme tells dates with their predecessors, float and where each activity comes from',
    async () => {
      const { json } = await run('programme', project, '--json')
      expect(missing(json, ['activities', 'finish', 'bound', 'proven'])).toEqual([])
      expect(Date.parse(json.bound)).toBeLessThanOrEqual(Date.parse(json.finish))
      for (const activity of json.activities) {
        expect(missing(activity, ACTIVITY_FIELDS), activity.id).toEqual([])
        expect(Date.parse(activity.start)).toBeLessThanOrEqual(Date.parse(activity.finish))
      }
      const floats = json.nearCritical.map((p: Told) => p.float)
      expect(floats.length).toBeGreaterThan(5)
      expect(floats).toEqual([...floats].sort((a, b) => a - b))
      for (const path of json.nearCritical)
        expect(missing(path, ['float', 'tightest', 'activities']), path.tightest).toEqual([])
    },
    LONG,
  )

  test(
    'risk tells the same from the same seed, in rising order, with shares that add up',
    async () => {
      const ask = () => run('risk', project, '--runs', '200', '--seed', '5', '--json')
      const [one, two] = await Promise.all([ask(), ask()])
      expect(two.json).toEqual(one.json)
      const { restart, cost, drivers } = one.json
      for (const of of [restart, cost]) expect(missing(of, ['p10', 'p50', 'p80', 'p90', 'mean'])).toEqual([])
      const dates = [restart.p10, restart.p50, restart.p80, restart.p90].map(Date.parse)
      expect(dates).toEqual([...dates].sort((a, b) => a - b))
      const sum = drivers.reduce((s: number, d: Told) => s + d.share, 0)
      expect(sum).toBeCloseTo(1, 6)
    },
    LONG,
  )

  test(
    'whatif tells what a heavier hub breaks, and diff of the two files tells the same',
    async () => {
      const weight = '/parts/CH-HUB/mass/value'
      const heavier = fileOf('heavier.yaml', readFileSync(project, 'utf8').replace('value: 37.5751 t', 'value: 80 t'))
      const [asked, compared] = await Promise.all([
        run('whatif', project, '--set', weight, '80 t', '--json'),
        run('diff', project, heavier, '--json'),
      ])
      expect(asked.code).toBe(2)
      const { before, after, changes } = asked.json
      expect(after.counts.fail).toBeGreaterThan(before.counts.fail)
      expect(Date.parse(before.restart.planned)).not.toBeNaN()
      const hook = changes.find((c: Told) => c.check === 'lift.hook.use/head-drive-out/LT1-M')
      expect(hook).toMatchObject({ before: { verdict: 'near' }, after: { verdict: 'fail' } })
      expect(compared.json.patch).toEqual([{ op: 'replace', path: weight, value: '80 t' }])
      expect(compared.json.changes).toEqual(changes)
    },
    LONG,
  )

  test(
    'report writes the sheet of a lift; the same date gives the same bytes',
    async () => {
      const write = (out: string) =>
        run('report', project, '--out', join(folder, out), '--lift', 'crown-out', '--date', '2032-05-04', '--json')
      const [one, two] = await Promise.all([write('a'), write('b')])
      const [first, second] = [one, two].map(({ json }) => readFileSync(json.files[0]))
      expect(first?.subarray(0, 5).toString()).toBe('%PDF-')
      expect(first?.equals(second as Buffer)).toBe(true)
    },
    LONG,
  )
})

describe('drawings of the site', () => {
  test(
    'report writes plan and sections on the paper asked for; an unknown step is refused with a near one',
    async () => {
      const out = join(folder, 'site')
      const { json } = await run('report', project, '--out', out, '--only', 'site', '--paper', 'A2', '--json')
      expect(json.files.map((f: string) => f.slice(out.length + 1))).toEqual([
        'site/plan.pdf',
        'site/sections.pdf',
        'site/shaft.pdf',
        'site/settlement.pdf',
      ])
      for (const file of json.files) expect(readFileSync(file).subarray(0, 5).toString()).toBe('%PDF-')
      const refused = await run('report', project, '--out', join(folder, 'no'), '--step', 'S05-upper-lef', '--json')
      expect(refused.code).toBe(1)
      expect(JSON.stringify(refused.json.problems)).toContain('S05-upper-left')
      expect(existsSync(join(folder, 'no'))).toBe(false)
    },
    LONG,
  )
})

describe('the campaign on one sheet', () => {
  test(
    'report writes the campaign diagram as PDF and as SVG, on the paper asked for',
    async () => {
      const out = join(folder, 'campaign')
      const { json } = await run('report', project, '--out', out, '--only', 'campaign', '--paper', 'A3', '--json')
      const names = json.files.map((f: string) => f.slice(out.length + 1))
      expect(names).toEqual(['campaign/campaign.pdf', 'campaign/campaign.svg'])
      expect(readFileSync(json.files[0]).subarray(0, 5).toString()).toBe('%PDF-')
      expect(readFileSync(json.files[1], 'utf8')).toContain('viewBox="0 0 420 297"')
    },
    LONG,
  )
})

describe('without a project', () => {
  test(
    'catalogue gives every check of practice its place, and all of them are computed',
    async () => {
      const { code, json } = await run('catalogue', '--json')
      expect(code).toBe(0)
      for (const entry of json.checks) expect(missing(entry, CATALOGUE_FIELDS), entry.id).toEqual([])
      const numbers = new Set(json.checks.flatMap((c: Told) => c.practice))
      expect([...Array(104).keys()].filter((i) => !numbers.has(i + 1))).toEqual([])
      expect(json.checks.filter((c: Told) => c.state !== 'computed')).toEqual([])
    },
    LONG,
  )

  test(
    'schema is a JSON Schema of the project',
    async () => {
      const { json } = await run('schema', '--json')
      expect(json.$schema).toContain('json-schema.org')
      expect(json.properties).toHaveProperty('parts')
    },
    LONG,
  )

  test(
    'verify tells counts and every case',
    async () => {
      const { json } = await run('verify', 'mass', '--json')
      expect(json.cases).toHaveLength(json.passed + json.failed)
      for (const c of json.cases)
        expect(missing(c, ['id', 'source', 'basis', 'expected', 'got', 'verdict']), c.id).toEqual([])
    },
    LONG,
  )
})

test(
  'rcpsp schedules a benchmark instance, proves it, and writes what it prints',
  async () => {
    const out = join(folder, 'solved.json')
    const { code, json } = await run('rcpsp', fileOf('two.sm', TWO_ON_ONE_MACHINE), '--out', out, '--json')
    expect(code).toBe(0)
    expect(json).toMatchObject({ makespan: 7, bound: 7, proven: true, starts: { 1: 0, 4: 7 } })
    expect(JSON.parse(readFileSync(out, 'utf8'))).toEqual(json)
    const broken = await run('rcpsp', fileOf('none.sm', 'nothing'), '--out', join(folder, 'no.json'), '--json')
    expect(broken).toMatchObject({ code: 1, json: { problems: [{}, {}, {}] } })
    expect(existsSync(join(folder, 'no.json'))).toBe(false)
  },
  LONG,
)

/** Jobs of three and four days that both want the one machine there is, in PSPLIB form. */
const TWO_ON_ONE_MACHINE = `PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
1 1 2 2 3
2 1 1 4
3 1 1 4
4 1 0
************************************************************************
REQUESTS/DURATIONS:
jobnr. mode duration  R 1
1 1 0 0
2 1 3 1
3 1 4 1
4 1 0 0
************************************************************************
RESOURCEAVAILABILITIES:
R 1
1
`

describe('bad input', () => {
  test.each([
    ['no file', 'none.yaml', undefined],
    ['no YAML', 'broken.yaml', 'a: [1,'],
    ['a list', 'list.json', '[]'],
    [
      'bare numbers where units are due',
      'bare.yaml',
      'schemaVersion: 1\nabout: {title: x}\nmachine: {pose: {origin: [1, 2, 3], roll: 0, pitch: 0, yaw: 0}}\n',
    ],
    ['an id of nothing', 'lost.yaml', 'schemaVersion: 1\nabout: {title: x}\norder: [nowhere]\n'],
    ['another version', 'version.yaml', 'schemaVersion: 99\nabout: {title: x}\n'],
  ])(
    '%s: every problem with its place, and exit code 1',
    async (_, name, text) => {
      const path = text === undefined ? join(folder, name) : fileOf(name, text)
      const { code, json } = await run('check', path, '--json')
      expect(code).toBe(1)
      expect(json.problems.length).toBeGreaterThan(0)
      for (const problem of json.problems) expect(missing(problem, ['pointer', 'found', 'expected'])).toEqual([])
    },
    LONG,
  )

  test(
    'without --json problems are said on standard error, one a line, and nothing on standard output',
    async () => {
      const { code, out, err } = await run('check', fileOf('two.yaml', 'schemaVersion: 99\nabout: {title: 3}\n'))
      expect([code, out]).toEqual([1, ''])
      const lines = err.trim().split('\n')
      expect(lines).toHaveLength(2)
      for (const line of lines) expect(line).toMatch(/^\/\S+: found .+, expected .+/)
    },
    LONG,
  )

  test(
    'report on a file that is no project writes nothing',
    async () => {
      const out = join(folder, 'nothing')
      expect((await run('report', fileOf('bad.yaml', 'schemaVersion: 1\n'), '--out', out)).code).toBe(1)
      expect(existsSync(out)).toBe(false)
    },
    LONG,
  )

  test(
    'demo does not write over what someone changed',
    async () => {
      const changed = join(folder, 'changed')
      await run('demo', changed)
      writeFileSync(join(changed, 'project.yaml'), 'mine: true\n')
      const again = await run('demo', changed, '--json')
      expect(again).toMatchObject({ code: 1, json: { problems: [{ pointer: join(changed, 'project.yaml') }] } })
      expect(readFileSync(join(changed, 'project.yaml'), 'utf8')).toBe('mine: true\n')
    },
    LONG,
  )

  test(
    'whatif needs pairs, takes a value that begins with a minus, and refuses one without its unit',
    async () => {
      const small = fileOf('small.yaml', 'schemaVersion: 1\nabout: {title: x}\nsettings: {tilt: 2 deg}\n')
      const odd = await run('whatif', small, '--set', '/settings/tilt', '--json')
      expect(odd).toMatchObject({ code: 1, json: { problems: [{ pointer: '--set' }] } })
      const bare = await run('whatif', small, '--set', '/settings/tilt', '3', '--json')
      expect(bare).toMatchObject({ code: 1, json: { problems: [{ pointer: '/settings/tilt', found: '3' }] } })
      const minus = await run(
        'whatif',
        small,
        '--set',
        '/settings/tilt',
        '-1 deg',
        '--set',
        '/about/title',
        'y',
        '--json',
      )
      expect(minus).toMatchObject({ code: 0, json: { changes: [] } })
    },
    LONG,
  )

  test(
    'an unknown command or option is a problem, as JSON where JSON was asked for',
    async () => {
      expect(await run('chekc', '--json')).toMatchObject({ code: 1, json: { problems: [{}] } })
      expect((await run('check', project, '--colour')).code).toBe(1)
    },
    LONG,
  )
})

const CHECK_FIELDS = [
  'id',
  'stage',
  'subject',
  'title',
  'demand',
  'capacity',
  'utilisation',
  'verdict',
  'working',
  'cautions',
]
const LIFT_FIELDS = [
  'id',
  'piece',
  'mass',
  'hookLoad',
  'legs',
  'tilt',
  'height',
  'clearance',
  'turning',
  'allowableWind',
  'checks',
]
const ACTIVITY_FIELDS = ['id', 'name', 'start', 'finish', 'totalFloat', 'critical', 'resources', 'predecessors', 'from']
const CATALOGUE_FIELDS = ['id', 'title', 'stage', 'source', 'basis', 'practice', 'state', 'decidedBy']

// biome-ignore lint/suspicious/noExplicitAny: what a command tells is what the test looks at
type Told = any

const missing = (told: object, fields: readonly string[]): string[] =>
  fields.filter((field) => !Object.hasOwn(told, field))

function fileOf(name: string, text: string): string {
  const path = join(folder, name)
  writeFileSync(path, text)
  return path
}

interface Ran {
  code: number | null
  out: string
  err: string
  json: Told
}

/** The document that a text is, when it is one and nothing else. */
function jsonIn(text: string): Told {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

/** Runs the command line as a user does; `json` is what it printed, when that is all it printed. */
function run(...words: string[]): Promise<Ran> {
  const child = spawn(process.execPath, [bin, ...words], { cwd: folder, stdio: ['ignore', 'pipe', 'pipe'] })
  const [out, err]: [Buffer[], Buffer[]] = [[], []]
  child.stdout.on('data', (chunk: Buffer) => out.push(chunk))
  child.stderr.on('data', (chunk: Buffer) => err.push(chunk))
  return new Promise((resolve) => {
    child.once('close', (code) => {
      const text = Buffer.concat(out).toString()
      resolve({ code, out: text, err: Buffer.concat(err).toString(), json: jsonIn(text) })
    })
  })
}
