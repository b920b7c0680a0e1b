import { epochOf, isDayOnly, type Weld } from '../../model/index.ts'
import { type Answer, found, given, knownOr } from '../../working/answer.ts'
import { type Check, check, type Subject } from '../../working/check.ts'
import { faultsFound, NONE } from '../../working/fault.ts'
import { pointerOf } from '../../working/pointer.ts'
import { weldAccepted, weldPreheated, weldQualified, weldWaited } from './kinds.ts'
import { measureChecks } from './opened.ts'

const CAUTION = 'The welding procedure and the standard it is qualified to govern; a welding engineer accepts the weld.'

/**
 * Checks of one weld: procedure and welders, preheat, wait, each examination, and what was measured.
 *
 * @param zone of the local times in its record
 */
export function weldChecks(id: string, weld: Weld, zone: string, near: number): Check[] {
  const subject: Subject = { pointer: pointerOf('welds', id), id, name: weld.what }
  return [
    qualifiedCheck(subject, weld, near),
    ...heatChecks(subject, weld, near),
    waitCheck(subject, weld, zone),
    ...acceptedChecks(subject, weld, zone, near),
    ...measureChecks(subject, weld.measures, near),
  ]
}

type Subjected = { readonly pointer: string }
const openAt = ({ pointer }: Subjected, field: string): Answer<'1'> => given('1', `${pointer}/${field}`, undefined)

function qualifiedCheck(subject: Subject, { procedure, welders, finished }: Weld, near: number): Check {
  const all = Object.entries(welders)
  const day = finished?.slice(0, 10)
  const late = all.filter(([, { until }]) => until !== undefined && day !== undefined && until < day)
  const missing = [
    ...(procedure?.qualifiedBy === undefined ? [procedure === undefined ? 'procedure' : 'procedure/qualifiedBy'] : []),
    ...(all.length === 0 ? ['welders'] : []),
    ...all.flatMap(([w, { qualification, until }]) => [
      ...(qualification === undefined ? [`welders/${w}/qualification`] : []),
      ...(until === undefined ? [`welders/${w}/until`] : []),
    ]),
    ...(finished === undefined ? ['finished'] : []),
  ]
  return check({
    kind: weldQualified,
    subject,
    demand: faultsFound(
      late.length,
      'welders whose qualification had ended on the day of the last pass',
      Object.fromEntries(missing.map((field) => [field, openAt(subject, field)])),
    ),
    capacity: NONE,
    near,
    assumptions: [
      ...(procedure === undefined ? [] : [`procedure ${procedure.id}`]),
      'that procedure and qualification cover material, thickness and position is for the welding engineer',
    ],
    cautions: [CAUTION],
    found: late.map(([, { mark, until }]) => `${mark}: qualified until ${until}, welded until ${day}`),
  })
}

/** The record is kept in degrees Celsius, and the ratio of what was read to what was asked for is taken there. */
const ON_CELSIUS = 'the use is a ratio of degrees Celsius'

function heatChecks(subject: Subject, { preheat, interpass }: Weld, near: number): Check[] {
  const common = { kind: weldPreheated, subject, assumptions: [ON_CELSIUS], cautions: [CAUTION] }
  const heatAt = (field: string): Answer<'°C'> => given('°C', `${subject.pointer}/${field}`, undefined)
  return [
    check({
      ...common,
      of: 'least',
      title: 'Preheat of the weld is reached',
      demand: preheat?.atLeast ?? heatAt('preheat'),
      capacity: preheat?.lowest ?? heatAt('preheat/lowest'),
      near: 1,
      found: ['colder than the procedure asks for: what was laid so is gouged out'],
    }),
    ...(interpass === undefined
      ? []
      : [
          check({
            ...common,
            of: 'most',
            title: 'The weld is not too hot between passes',
            demand: interpass.highest ?? heatAt('interpass/highest'),
            capacity: interpass.atMost,
            near,
            found: ['hotter than the procedure allows'],
          }),
        ]),
  ]
}

/** The shortest that the weld can have stood: a day alone is its last instant where welding ended, its first where it was examined. */
function waitCheck(subject: Subject, weld: Weld, zone: string): Check {
  const { finished, wait } = weld
  const examined = standingTests(weld).filter(([, t]) => t.method !== 'VT')
  const times = examined.flatMap(([, { on }]) => (on === undefined ? [] : [epochOf(on, zone, 'first')]))
  const missing = [
    ...(finished === undefined ? ['finished'] : []),
    ...(examined.length === 0 ? ['tests'] : []),
    ...examined.flatMap(([t, { on }]) => (on === undefined ? [`tests/${t}/on`] : [])),
  ]
  const stood = finished === undefined ? 0 : (Math.min(...times) - epochOf(finished, zone, 'last')) / 1000
  const isVisualOnly = examined.length === 0 && Object.keys(weld.tests).length > 0
  return check({
    kind: weldWaited,
    subject,
    demand: knownOr(wait, 's', `${subject.pointer}/wait`),
    capacity: isVisualOnly
      ? knownOr(wait, 's', `${subject.pointer}/wait`)
      : found({
          unit: 's',
          value: Math.max(0, stood),
          method: 'from the last pass to the first examination other than the visual',
          inputs: Object.fromEntries(missing.map((field) => [field, openAt(subject, field)])),
          residuals: [],
        }),
    near: 1,
    assumptions: [
      ...(isVisualOnly ? ['looked at by eye alone: nothing has to wait'] : []),
      ...([finished, ...examined.map(([, { on }]) => on)].some((m) => m !== undefined && isDayOnly(m))
        ? ['a day without a time is taken at its worse end']
        : []),
    ],
    cautions: [CAUTION],
    found: ['examined too early: cracks by hydrogen may come later; examine again'],
  })
}

type Examined = Weld['tests'][string]

/** Examinations that stand: of each method the latest, the last written of the same day. */
export function standingTests({ tests }: Weld): readonly (readonly [id: string, test: Examined])[] {
  const last = new Map<string, readonly [string, Examined]>()
  for (const [id, test] of Object.entries(tests)) {
    const before = last.get(test.method)
    if (before === undefined || (before[1].on ?? '') <= (test.on ?? '')) last.set(test.method, [id, test])
  }
  return [...last.values()]
}

function acceptedChecks(subject: Subject, weld: Weld, zone: string, near: number): Check[] {
  const tests = standingTests(weld)
  if (tests.length === 0)
    return [
      check({
        kind: weldAccepted,
        subject,
        demand: faultsFound(0, 'examinations that do not accept it', { tests: openAt(subject, 'tests') }),
        capacity: NONE,
        near,
        cautions: [CAUTION],
      }),
    ]
  return tests.map(([t, test]) => acceptedCheck(subject, t, test, { weld, zone }, near))
}

function acceptedCheck(
  subject: Subject,
  id: string,
  test: Examined,
  { weld, zone }: { weld: Weld; zone: string },
  near: number,
): Check {
  const { welders } = weld
  const { method, level, asked, done, by, result, indications } = test
  const faults = [
    ...(result === 'rejected' ? [`${method}: rejected${indications === undefined ? '' : `, ${indications}`}`] : []),
    ...(done?.value !== undefined && asked.value !== undefined && done.value < asked.value
      ? [`${method}: ${percent(done.value)} of the length examined, ${percent(asked.value)} asked for`]
      : []),
    ...(by !== undefined && Object.values(welders).some(({ mark }) => mark.trim() === by.trim())
      ? [`${method}: ${by} laid the weld and examined it`]
      : []),
    ...beforeLastPass(test, weld, zone),
  ]
  const missing = (['level', 'done', 'on', 'by', 'qualification', 'result'] as const).filter(
    (f) => test[f] === undefined,
  )
  return check({
    kind: weldAccepted,
    subject,
    of: id,
    title: `${method} of the weld: ${level === undefined ? 'quality level not said' : `accepted at ${level}`}`,
    demand: faultsFound(
      faults.length,
      'reasons not to accept it',
      Object.fromEntries(missing.map((field) => [field, openAt(subject, `tests/${id}/${field}`)])),
    ),
    capacity: NONE,
    near,
    assumptions: [`${percent(asked.value ?? 0)} of the length asked for`],
    cautions: [CAUTION],
    found: faults,
  })
}

/** What was looked at before the last pass says nothing of it, by whatever method; of days alone, only where it is sure. */
function beforeLastPass({ method, on }: Examined, { finished }: Weld, zone: string): string[] {
  if (on === undefined || finished === undefined) return []
  return epochOf(on, zone, 'last') < epochOf(finished, zone, 'first')
    ? [`${method}: examined on ${on}, before the last pass of ${finished}; examine again`]
    : []
}

const percent = (share: number): string => `${Math.round(share * 1000) / 10} %`
