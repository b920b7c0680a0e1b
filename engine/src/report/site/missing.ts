import type { SiteSubject } from './subject.ts'

/** What the plan cannot show because the project does not have it, each as a sentence. */
export function missingFromPlan({ stages, step }: SiteSubject): string[] {
  const { shaft, bays, systems, machine, utilities } = stages.model.project
  const stands = Object.values(systems).some((s) => s.rails !== undefined || s.standings.length > 0)
  return [
    ...(shaft === undefined ? ['No shaft in the project: distances are from the origin of the site.'] : []),
    ...(Object.keys(bays).length === 0 ? ['No laydown bays in the project.'] : []),
    ...(stands ? [] : ['No lifting machine with rails or standings in the project.']),
    ...(machine === undefined ? ['No machine in the project.'] : []),
    ...(Object.keys(utilities).length === 0
      ? ['No buried services, overhead lines or roads in the project: whether there are any is not known.']
      : []),
    ...(step === undefined ? ['No order in the project: nothing has been set down.'] : []),
    'North is not in the model; x runs along the drive, y to its left.',
    'Legs are drawn as signs at their places, not as large as their footings.',
  ]
}

/** What the sections cannot show because the project does not have it. */
export function missingFromSections({ stages }: SiteSubject): string[] {
  const { shaft, ground, cradle, systems, machine } = stages.model.project
  const tower = Object.values(systems).some((s) => s.rails !== undefined)
  const levels = Object.keys(ground?.layers ?? {}).length
  return [
    ...(shaft === undefined ? ['No shaft in the project.'] : []),
    ...(levels === 0 ? ['No ground layers in the project.'] : []),
    ...(ground !== undefined && Object.keys(ground.water).length === 0 ? ['No water levels in the project.'] : []),
    ...(cradle === undefined ? ['No cradle in the project.'] : []),
    ...(tower ? [] : ['No lift tower on rails in the project; cranes are on the plan.']),
    ...(machine === undefined ? ['No machine in the project.'] : []),
  ]
}
