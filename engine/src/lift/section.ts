import type { Gear } from '../model/index.ts'
import { type Answer, stated } from '../working/answer.ts'
import {
  flangeSlenderness,
  sectionArea,
  sectionElastic,
  sectionPlastic,
  sectionStrong,
  sectionTorsion,
  sectionWarping,
  sectionWeak,
  sectionWebs,
  webHeight,
  webSlenderness,
} from './section.formulas.ts'

export type Beam = NonNullable<Gear['beam']>

/** What a section of plates comes to. */
export interface Section {
  A: Answer<'m2'>
  A_w: Answer<'m2'>
  I_y: Answer<'m4'>
  I_z: Answer<'m4'>
  W_el: Answer<'m3'>
  W_pl: Answer<'m3'>
  I_t: Answer<'m4'>
  I_w: Answer<'m6'>
  h_w: Answer<'m'>
  /** Height over thickness of a web; what can buckle of a flange over its thickness. */
  s_w: Answer<'1'>
  s_f: Answer<'1'>
  webs: Answer<'1'>
}

const worked = new WeakMap<Beam, Section>()

/** Figures of an I-section or a box, from its plates; of each beam as it is read they are worked once. */
export function sectionOf(beam: Beam): Section {
  const section = worked.get(beam) ?? fromPlates(beam)
  worked.set(beam, section)
  return section
}

function fromPlates({ section }: Beam): Section {
  const { depth: h, width: b, flange: t_f, web: t_w } = section
  const n = stated('1', websOf(section.kind), `webs of the ${section.kind}`)
  const plates = { h, b, t_f, t_w, n }
  const I_y = sectionStrong.show(plates)
  const I_z = sectionWeak.show(plates)
  return {
    A: sectionArea.show(plates),
    A_w: sectionWebs.show({ h, t_f, t_w, n }),
    I_y,
    I_z,
    W_el: sectionElastic.show({ I_y, h }),
    W_pl: sectionPlastic.show(plates),
    I_t: sectionTorsion.show(plates),
    I_w: sectionWarping.show({ I_z, h, t_f, n }),
    h_w: webHeight.show({ h, t_f }),
    s_w: webSlenderness.show({ h, t_f, t_w }),
    s_f: flangeSlenderness.show({ b, t_f, t_w, n }),
    webs: n,
  }
}

const websOf = (kind: Beam['section']['kind']): number => (kind === 'box' ? 2 : 1)
