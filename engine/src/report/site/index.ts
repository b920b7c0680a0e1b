export { type BayFacts, bayFacts } from './bayFacts.ts'
export { SITE_PAPERS, type SitePaper } from './layout.ts'
export {
  type BesidePicture,
  besidePicture,
  type PictureOptions,
  planOnPage,
  type SitePicture,
  sitePicture,
} from './picture.ts'
export type { FigureTable } from './shaft/figures.ts'
export { siteShaft } from './shaft/siteShaft.ts'
export { sitePlan } from './sitePlan.ts'
export { siteSections } from './siteSections.ts'
export { siteSettlement } from './siteSettlement.ts'
export type { SiteOptions } from './subject.ts'
