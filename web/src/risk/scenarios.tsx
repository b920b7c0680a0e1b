import type { ScenarioRow } from '@shieldwright/engine'
import type { Patch } from '@shieldwright/engine/working/patch.ts'
import { at } from '@shieldwright/engine/working/pointer.ts'
import { problemText } from '@shieldwright/engine/working/problem.ts'
import { showNumber } from '@shieldwright/engine/working/quantity.ts'
import { dateText } from '../parts/figures.ts'
import { Scroll } from '../parts/scroll.tsx'
import { useShown } from '../state.ts'
import { SCENARIO_RUNS, useScenarioJob } from './scenarioJob.ts'

interface Branch {
  name: string
  why?: string
  patch: Patch
}

/** Branches of the project beside it as it stands; any of them can be looked at like an edit, and kept. */
export function Scenarios() {
  const { document, revision } = useShown()
  const { kept, running, fault, run, cancel } = useScenarioJob()
  const branches = Object.entries((at(document, '/scenarios') ?? {}) as Readonly<Record<string, Branch>>)
  if (branches.length === 0) return null
  const stale = kept !== undefined && kept.revision !== revision
  const rows = new Map(kept?.table.rows.map((row) => [row.id ?? '', row]))
  const broken = new Map(kept?.table.broken.map((b) => [b.id, b.problems]))
  return (
    <section className="scenarios">
      <div className="titled">
        <h2>Scenarios side by side</h2>
        <span className="small quiet">
          {kept === undefined
            ? `${branches.length} branches of this project`
            : `${showNumber(SCENARIO_RUNS, 0)} runs each on the same random numbers${stale ? ', stale: the project has changed since' : ''}`}
        </span>
      </div>
      <Scroll name="Scenarios side by side">
        <table className={stale ? 'stale' : undefined}>
          <caption className="unseen">Scenarios with verdicts, restart and cost</caption>
          <thead>
            <tr>
              <th scope="col">Scenario</th>
              {['Fail', 'Open', 'Verdicts moved'].map((head) => (
                <th key={head} scope="col" className="num">
                  {head}
                </th>
              ))}
              {['Planned', 'P50', 'P80'].map((head) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
              {['Days won, P80', '±', 'Cost, P80'].map((head) => (
                <th key={head} scope="col" className="num">
                  {head}
                </th>
              ))}
              <th scope="col">
                <span className="unseen">Look at it</span>
              </th>
            </tr>
          </thead>
          <tbody>
            <Row name="As it stands" row={rows.get('')} />
            {branches.map(([id, branch]) => (
              <Row key={id} {...branch} row={rows.get(id)} problems={broken.get(id)?.map(problemText)} />
            ))}
          </tbody>
        </table>
      </Scroll>
      <p className="small quiet">
        {running === undefined ? (
          <button type="button" className="link" onClick={() => void run()}>
            {kept === undefined ? 'Work it out' : 'Work it out again'}
          </button>
        ) : (
          <span role="status">
            working, {running.done} of {running.of} scenarios{' '}
            <button type="button" className="link" onClick={cancel}>
              Cancel
            </button>
          </span>
        )}
        {fault === undefined ? '' : ` No result: ${fault}`} Of the kept project, not of an edit that is still looked at.
      </p>
    </section>
  )
}

interface RowProps {
  name: string
  why?: string
  patch?: Patch
  row: ScenarioRow | undefined
  problems?: readonly string[] | undefined
}

function Row({ name, why, patch, row, problems }: RowProps) {
  const { act, trial, readOnly } = useShown()
  const { standing, chances, moved } = row ?? {}
  const day = (instant: string | null | undefined): string =>
    instant === undefined || instant === null ? '' : dateText(Date.parse(instant))
  return (
    <tr>
      <th scope="row">
        {name}
        {why !== undefined && <div className="small quiet">{why}</div>}
        {problems !== undefined && <div className="small fail">{problems.join('; ')}</div>}
      </th>
      <td className="num">{standing?.counts.fail ?? ''}</td>
      <td className="num">{standing?.counts.open ?? ''}</td>
      <td className="num">{patch === undefined ? '' : (moved?.length ?? '')}</td>
      <td className="small">{day(standing?.restart.planned)}</td>
      <td className="small">{day(chances?.p50)}</td>
      <td className="small strong">{day(chances?.p80)}</td>
      <td className="num">{chances?.saved === undefined ? '' : showNumber(chances.saved.savedP80, 1)}</td>
      <td className="num quiet">{chances?.saved === undefined ? '' : showNumber(chances.saved.errorP80, 1)}</td>
      <td className="num">{chances === undefined ? '' : showNumber(Math.round(chances.cost.p80 / 1000) * 1000, 0)}</td>
      <td>
        {patch !== undefined && (
          <button
            type="button"
            className="link"
            aria-label={`Look at ${name}`}
            disabled={trial !== undefined || readOnly !== undefined}
            onClick={() => act.tryOut(patch, `scenario: ${name}`)}
          >
            Look at it
          </button>
        )}
      </td>
    </tr>
  )
}
