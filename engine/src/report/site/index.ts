export { SITE_PAPERS, type SitePaper } from './layout.ts'
export { sitePlan } from './sitePlan.ts'
export { siteSections } from './siteSections.ts'
export type { SiteOptions } from './subject.ts'
