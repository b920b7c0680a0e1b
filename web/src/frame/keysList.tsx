import './dialog.css'
import { useState } from 'react'
import { Marks } from '../parts/verdict.tsx'
import { Dialog } from './dialog.tsx'
import { KEYS } from './keys.ts'
import { recall, remember } from './remembered.ts'

/** Every key and every mark, and the switch for keys of one letter. */
export function KeysList({ onClose }: { onClose: () => void }) {
  const [off, setOff] = useState(recall('keys') === 'off')
  const toggle = (isOff: boolean): void => {
    remember('keys', isOff ? 'off' : 'on')
    setOff(isOff)
  }
  return (
    <Dialog name="Keys and marks" onClose={onClose}>
      <div className="titled">
        <h2>Keys</h2>
        <label className="small">
          <input type="checkbox" checked={!off} onChange={(e) => toggle(!e.target.checked)} /> keys of one letter work
        </label>
      </div>
      <table>
        <caption className="unseen">Keys and what they do</caption>
        <tbody>
          {KEYS.map(({ keys, does, single }) => (
            <tr key={keys} className={single && off ? 'quiet' : undefined}>
              <th scope="row">
                <kbd>{keys}</kbd>
              </th>
              <td>
                {does}
                {single && off ? ', switched off' : ''}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <h2 className="spaced">Marks</h2>
      <Marks />
    </Dialog>
  )
}
