import type { Machine, Model } from '../model/index.ts'
import { given, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { apart } from './check.formulas.ts'
import { poseAgainstSurvey } from './kinds.ts'
import { siteAnswers } from './rollup.ts'

type Pose = Machine['pose']
type Point = Pose['survey'][string]

/** The pose against every surveyed point; without one it is open. */
export function poseChecks({ project, near }: Model, memory: Memory): readonly Check[] {
  const pose = project.machine?.pose
  if (pose === undefined) return []
  const { surveyTolerance } = project.settings
  return memory.once('mass-pose-checks', [pose, surveyTolerance, near], () => {
    const points = Object.entries(pose.survey)
    const tolerance = knownOr(surveyTolerance, 'm', '/settings/surveyTolerance')
    if (points.length === 0) return [unsurveyed(tolerance, near)]
    return points.map(([id, point]) => pointCheck(id, point, pose, tolerance, near))
  })
}

function pointCheck(
  id: string,
  point: Point,
  pose: Pose,
  tolerance: ReturnType<typeof knownOr<'m'>>,
  near: number,
): Check {
  const [X, Y, Z] = siteAnswers(point.machine, pose)
  const [Xs, Ys, Zs] = point.site
  return check({
    kind: poseAgainstSurvey,
    subject: { pointer: pointerOf('machine', 'pose', 'survey', id), id, name: `Survey point ${id}` },
    demand: apart.show({ X, Y, Z, Xs, Ys, Zs }),
    capacity: tolerance,
    near,
    found: ['the pose, the point in the machine or the survey is wrong: every site position hangs from it'],
  })
}

function unsurveyed(tolerance: ReturnType<typeof knownOr<'m'>>, near: number): Check {
  return check({
    kind: poseAgainstSurvey,
    subject: { pointer: '/machine/pose/survey', id: 'machine', name: 'Machine' },
    demand: given('m', '/machine/pose/survey', undefined),
    capacity: tolerance,
    near,
  })
}
