import { figureOf } from '../parts/figures.ts'
import { Scroll } from '../parts/scroll.tsx'
import { useShown } from '../state.ts'
import type { BoltUpView, OrderStepView } from './orderView.ts'

/** What is bolted up when the piece has come back: how far each bolt is tightened, in which passes and in which order. */
export function BoltUp({ step }: { step: OrderStepView }) {
  const { system } = useShown()
  if (step.boltUp.length === 0) return null
  const sheets = `/api/report/bolt-up/${encodeURIComponent(step.step)}.pdf?units=${system}`
  return (
    <details>
      <summary>Bolted up on its return: {step.boltUp.length} joints</summary>
      <Scroll name="Bolted up on its return">
        <table>
          <caption className="unseen">Joints to be bolted up, with preload and passes</caption>
          <thead>
            <tr>
              <th scope="col">Joint</th>
              <th scope="col">Bolts</th>
              <th scope="col" className="num">
                Preload
              </th>
              <th scope="col" className="num">
                Least, most
              </th>
              <th scope="col">Passes</th>
              <th scope="col">Order of one pass</th>
            </tr>
          </thead>
          <tbody>
            {step.boltUp.map((joint) => (
              <JointRow key={joint.joint} joint={joint} />
            ))}
          </tbody>
        </table>
      </Scroll>
      <p className="small">
        To take along, with boxes to tick and sign: <a href={`${sheets}&paper=A4`}>bolt-up sheets, A4</a>,{' '}
        <a href={`${sheets}&paper=Letter`}>Letter</a>
      </p>
      <p className="small quiet">
        A check pass follows the last; {step.boltUp[0]?.recheck}. The maker’s bolting instruction governs. Nobody in
        line with a bolt that is tensioned.
      </p>
    </details>
  )
}

function JointRow({ joint }: { joint: BoltUpView }) {
  const { system } = useShown()
  const words = (value: number | undefined, unit: 'N' | 'N m' | 'Pa'): string => {
    const { number, unit: label } = figureOf(value, unit, system)
    return `${number} ${label}`.trim()
  }
  return (
    <tr>
      <th scope="row">
        {joint.joint} <span className="quiet small">{joint.between}</span>
      </th>
      <td className="small">
        {joint.bolts}
        {joint.notes.map((note) => (
          <span key={note} className="each quiet">
            {note}.{' '}
          </span>
        ))}
      </td>
      <td className="num">{words(joint.target, 'N')}</td>
      <td className="num">
        {words(joint.least, 'N')}, {words(joint.most, 'N')}
      </td>
      <td className="small">
        {joint.passes
          .map(
            ({ share, tension, torque, pressure }) =>
              `${Math.round(100 * share)} %: ${pressure === undefined ? words(torque ?? tension, torque === undefined ? 'N' : 'N m') : words(pressure, 'Pa')}`,
          )
          .join('; ')}
      </td>
      <td className="small">{orderText(joint.strokes)}</td>
    </tr>
  )
}

/** From so many bolts on only the beginning is written: the rule goes on. */
const WRITTEN = 16

function orderText(strokes: BoltUpView['strokes']): string {
  if (strokes.length === 0) return 'places not given: number them on the joint, opposite ones in turn'
  const written = strokes.slice(0, WRITTEN).map((stroke) => stroke.join(' + '))
  return `${written.join(', ')}${strokes.length > WRITTEN ? ', …' : ''}`
}
