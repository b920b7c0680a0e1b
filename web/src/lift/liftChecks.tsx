import { likeOf } from '@shieldwright/engine/working/quantity.ts'
import { useState } from 'react'
import type { CheckView } from '../engine/protocol.ts'
import { CheckDetail, worstFirst } from '../parts/checks.tsx'
import { figureOf, textOfUse } from '../parts/figures.ts'
import { type Opened, Opens, useOpened } from '../parts/opens.tsx'
import { LimitHead, LimitRule, VerdictWord } from '../parts/verdict.tsx'
import { useShown } from '../state.ts'
import type { LiftPageView } from './pageView.ts'

/** Passing checks shown before the rest is folded away. */
const FEW_PASSING = 6

/** The checks of the lift and of the ground under it, tightest first. */
export function LiftChecks({ page }: { page: LiftPageView }) {
  const { summary } = useShown()
  const [all, setAll] = useState(false)
  const opened = useOpened()
  const ids = new Set(page.checks)
  const checks = summary.checks.filter((c) => ids.has(c.id)).sort(worstFirst)
  const wrong = checks.filter((c) => c.verdict !== 'pass').length
  const shown = all ? checks : checks.slice(0, wrong + FEW_PASSING)
  return (
    <section>
      <div className="titled">
        <h2>Checks</h2>
        <span className="small quiet">{wrong === 0 ? 'all pass' : `${wrong} of ${checks.length} do not pass`}</span>
      </div>
      <table className="lift-checks">
        <caption className="unseen">Checks of {page.id}</caption>
        <thead>
          <tr>
            <th scope="col">
              <span className="unseen">Verdict</span>
            </th>
            <th scope="col">What</th>
            <th scope="col" className="num">
              Use
            </th>
            <th scope="col">
              <LimitHead near={summary.near} />
            </th>
          </tr>
        </thead>
        <tbody>
          {shown.map((check) => (
            <Row key={check.id} check={check} opened={opened} near={summary.near} />
          ))}
        </tbody>
      </table>
      {shown.length < checks.length && (
        <p className="small">
          <button type="button" className="link" onClick={() => setAll(true)}>
            {checks.length - shown.length} more pass
          </button>
        </p>
      )}
    </section>
  )
}

function Row({ check, opened, near }: { check: CheckView; opened: Opened; near: number }) {
  const open = opened.key === check.id
  const fails = check.verdict === 'fail'
  return (
    <>
      <tr className={open ? 'chosen' : undefined}>
        <td>
          <VerdictWord verdict={check.verdict} />
        </td>
        <th scope="row">
          <Opens opened={opened} of={check.id}>
            {shortTitle(check)}
          </Opens>
          <div className="small quiet">
            <OfLimit check={check} />
          </div>
          {check.verdict === 'open' && <div className="small quiet">{check.decidedBy} decides</div>}
          {fails && check.reasons.length > 0 && (
            <div className="small quiet">{check.reasons.slice(0, 2).join('; ')}</div>
          )}
        </th>
        <td className={fails ? 'num fail strong' : 'num'}>{textOfUse(check.utilisation)}</td>
        <td>
          <LimitRule use={check.utilisation} near={near} />
        </td>
      </tr>
      {open && (
        <tr>
          <td colSpan={4} className="opened">
            <CheckDetail check={check} onClose={opened.close} />
          </td>
        </tr>
      )}
    </>
  )
}

/** "628.0 of 660.0 t"; counts as what they are, those of faults in words. */
function OfLimit({ check }: { check: CheckView }) {
  const { system } = useShown()
  const { demand, capacity, unit } = check
  if (unit === '1' && capacity === 0) return demand === undefined ? 'open' : demand === 0 ? 'none' : `${demand} found`
  if (unit === '1' && [demand, capacity].every((v) => v === undefined || Number.isInteger(v)))
    return `${demand ?? 'open'} of ${capacity ?? 'open'}`
  const like = likeOf([demand, capacity], unit, system)
  const [d, c] = [demand, capacity].map((v) => figureOf(v, unit, system, v === undefined ? v : like))
  const label = c?.unit || d?.unit || ''
  return `${d?.number} of ${c?.number}${label === '°' ? '' : '\u00a0'}${label}`
}

const TITLES: Readonly<Record<string, (rest: string) => string>> = {
  'lift.hook.use': (rest) => rest || 'hook',
  'lift.leg.tension': (rest) => `tension, ${rest}`,
  'lift.leg.angle': (rest) => `angle, ${rest}`,
  'lift.lug.strength': (rest) => `lug strength, ${rest}`,
  'lift.lug.foot': (rest) => `foot of lug, ${rest}`,
  'lift.lug.weld': (rest) => `weld of lug, ${rest}`,
  'lift.lug.parent': (rest) => `plate under lug, ${rest}`,
  'lift.lug.tested': () => 'welds of lugs and plates under them tested',
  'lift.beam.use': (rest) => `beam in bending and buckling, ${rest}`,
  'lift.beam.shear': (rest) => `beam in shear, ${rest}`,
  'lift.beam.bearing': (rest) => `web under a point force, ${rest}`,
  'lift.beam.sag': (rest) => `sag of the beam, ${rest}`,
  'lift.bolts.use': (rest) => `bolts to the piece, ${rest}`,
  'lift.bolts.slip': (rest) => `slip of the bolts, ${rest}`,
  'lift.shackle.pin': (rest) => `pin, ${rest}`,
  'lift.path.clearance': (rest) => `clear of ${rest}`,
  'lift.stock.count': (rest) => `on hand, ${rest}`,
  'lift.system.load-test': () => 'load test of the system',
  'lift.system.test-valid': () => 'load test in date, and of the system as it stands',
  'lift.gear.proof': (rest) => `proof test, ${rest}`,
  'lift.wind.allowable': () => 'gust at which it stops',
  'lift.hook.break-out': () => 'ceiling of the reading at break-out',
  'lift.piece.stress': () => 'the piece itself, lifted and turned',
  'lift.turn.out-of-plumb': () => 'hoist lines near plumb',
  'lift.hook.both': () => 'both hooks together',
  'lift.height.hook': (rest) => (rest === '' ? 'hook height' : `height of the ${rest}`),
  'lift.hang.tilt': () => 'tilt as it hangs',
  'lift.class.demands': () => 'what the class demands is there',
  'lift.hook.load-complete': () => 'every line of the load has a mass',
  'lift.rating.basis': () => 'dynamics and block counted once',
  'lift.sling.design-factor': (rest) => `design factor, ${rest}`,
  'lift.turn.share': (rest) => `share of the ${rest}`,
  'lift.turn.worst-share': (rest) => `worst share of the ${rest}`,
}

/** What the check is about, without what its heading says already. */
export function shortTitle({ kind, title }: CheckView): string {
  const at = title.lastIndexOf(': ')
  const rest = at < 0 ? '' : title.slice(at + 2)
  const words = TITLES[kind]?.(rest) ?? (rest === '' ? title : kind === 'lift.component.use' ? rest : title)
  return words.slice(0, 1).toUpperCase() + words.slice(1)
}
