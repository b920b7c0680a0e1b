import { idsMeant, type Service } from '../../model/index.ts'
import { comesBack, serviceFaults, serviceMissing } from '../../strip/index.ts'
import { type AttachedFiles, attachmentsOf, type DossierAttachment } from './attached.ts'
import type { DossierStages } from './dossierSheet.ts'
import { type CheckLookup, idsOf } from './recordChecks.ts'

/** A service that was parted or joined, or that a file is kept of. */
export interface DossierService {
  id: string
  tag: string
  kind: Service['kind']
  medium: string
  /** The step that parts it; undefined where none does. */
  step: string | undefined
  parted: Service['parted']
  joined: Service['joined']
  /** `joined`: by one, looked at by another, with tags that agree. `scrapped`: what it led to does not come back. */
  state: 'joined' | 'open' | 'wrong' | 'scrapped'
  /** What is wrong, in words. */
  faults: readonly string[]
  attachments: readonly DossierAttachment[]
}

/** Services that one step parts and the return joins again; those that no step parts stand together. */
export interface DossierJoining {
  step: string | undefined
  piece: string
  services: number
  /** Those that are not joined, or not looked at by a second person, or wrong, by id. */
  open: readonly string[]
  checks: readonly string[]
}

/** Services that the return joins again step by step, and every service with a record. */
export function servicesOf(
  stages: DossierStages,
  lookup: CheckLookup,
  files: AttachedFiles | undefined,
): { joinings: DossierJoining[]; services: DossierService[] } {
  const { model, strip } = stages
  const { services: all, pieces } = model.project
  const partedBy = new Map(strip.steps.flatMap(({ step, services }) => services.map((id) => [id, step] as const)))
  const recorded = Object.entries(all).filter(
    ([, { parted, joined, attachments = [] }]) =>
      parted !== undefined || joined !== undefined || attachments.length > 0,
  )
  const joining = (ids: readonly string[], of: Omit<DossierJoining, 'services' | 'open'>): DossierJoining[] => {
    const back = ids.filter((id) => returns(stages, id))
    const open = back.filter((id) => stateOf(stages, id) !== 'joined')
    return back.length === 0 ? [] : [{ ...of, services: back.length, open }]
  }
  return {
    joinings: [
      ...strip.steps.flatMap(({ step, piece, services }) => {
        const checks = ['services-found', 'hoses'].flatMap((kind) => lookup.of('steps', step, kind))
        return joining(services, { step, piece: pieces[piece]?.name ?? piece, checks: idsOf(checks) })
      }),
      ...joining(
        recorded.flatMap(([id]) => (partedBy.has(id) ? [] : [id])),
        { step: undefined, piece: '', checks: [] },
      ),
    ],
    services: recorded.map(([id, service]) => ({
      ...recordedService(stages, id, service, partedBy.get(id)),
      attachments: attachmentsOf(service, files),
    })),
  }
}

const recordedService = (
  stages: DossierStages,
  id: string,
  service: Service,
  step: string | undefined,
): Omit<DossierService, 'attachments'> => ({
  id,
  tag: service.tag ?? id,
  kind: service.kind,
  medium: service.medium,
  step,
  parted: service.parted,
  joined: service.joined,
  state: stateOf(stages, id),
  faults: serviceFaults(id, service),
})

function stateOf(stages: DossierStages, id: string): DossierService['state'] {
  const service = stages.model.project.services[id] as Service
  if (!returns(stages, id)) return 'scrapped'
  if (serviceFaults(id, service).length > 0) return 'wrong'
  return serviceMissing(id, service).length > 0 ? 'open' : 'joined'
}

function returns({ model }: DossierStages, id: string): boolean {
  const service = model.project.services[id]
  if (service === undefined) return false
  const [from, to] = [service.from, service.to].map((end) => idsMeant(model.instances, end)) as [string[], string[]]
  return comesBack(model, { from, to })
}
