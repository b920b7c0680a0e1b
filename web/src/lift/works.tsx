import { pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { Signatures } from '../signing/signatures.tsx'
import type { LiftPageView, WorkView } from './pageView.ts'

/** Temporary works that the lift rests on, each with a place to sign its permit to load. */
export function Works({ page: { works } }: { page: LiftPageView }) {
  if (works.length === 0) return null
  return (
    <section>
      <h2>Temporary works under it</h2>
      {works.map((work) => (
        <OneWork key={work.id} work={work} />
      ))}
    </section>
  )
}

function OneWork({ work: { id, name, category, designed, checked, permitToLoad, approvals } }: { work: WorkView }) {
  const acts = { category, designed, checked, 'may be loaded': permitToLoad }
  return (
    <>
      <table>
        <caption>{name}</caption>
        <tbody>
          {Object.entries(acts).map(([act, words]) => (
            <tr key={act}>
              <th scope="row">{act}</th>
              <td className={words === 'open' ? 'strong' : undefined}>{words}</td>
            </tr>
          ))}
          {approvals.map((words) => (
            <tr key={words}>
              <th scope="row">approval</th>
              <td>{words}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <Signatures
        kind="temporary-work"
        subject={pointerOf('temporaryWorks', id)}
        title={`Permit to load: ${name}`}
        signsAs="coordinator of temporary works"
      />
    </>
  )
}
