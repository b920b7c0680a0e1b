import { Changed } from '../first/changed.tsx'
import { BuysTime, Drives } from '../first/drives.tsx'
import { Ledger } from '../first/ledger.tsx'
import { Restart } from '../first/restart.tsx'
import { StopsSoon } from '../first/stopsSoon.tsx'
import { Welcome } from '../first/welcome.tsx'

export { Restart } from '../first/restart.tsx'

/** The first page: when we restart; everything wrong, near or open, worst first; what changed and what comes next. */
export function FirstPage() {
  return (
    <>
      <Welcome />
      <div className="columns">
        <div>
          <Restart />
          <Ledger />
          <div className="pair">
            <Drives most={5} />
            <BuysTime most={5} />
          </div>
        </div>
        <div>
          <Changed />
          <StopsSoon />
        </div>
      </div>
      <p className="small quiet">
        A calculation aid for competent people. It has not examined your site. Local law, the manufacturer’s
        instructions, the standards in force and the decisions of licensed engineers and appointed persons govern. A
        result marked open is not an approval.
      </p>
    </>
  )
}
