import './questions.css'
import { Dialog } from '../frame/dialog.tsx'
import { useRemembered } from '../frame/remembered.ts'
import { useSelected } from '../shared.ts'
import { useShown } from '../state.ts'
import type { Facts } from './facts.ts'
import { PEOPLE, type Person, type Question } from './questions.ts'
import { toPlace } from './toPlace.ts'

const NAMES = PEOPLE.map((p) => p.name)

/** What each person of the recovery asks, answered in short, and the way to where the answer stands in full. */
export function QuestionsList({ onClose }: { onClose: () => void }) {
  const [name, setName] = useRemembered('person', NAMES, () => NAMES[0] as string)
  const person = PEOPLE.find((p) => p.name === name) as Person
  const shown = useShown()
  const { selected } = useSelected()
  const facts: Facts = { ...shown, selected }
  return (
    <Dialog name="Questions" onClose={onClose}>
      <fieldset className="people" aria-label="Who asks">
        {NAMES.map((n) => (
          <button key={n} type="button" aria-pressed={n === name} onClick={() => setName(n)}>
            {n}
          </button>
        ))}
      </fieldset>
      <ul className="questions" aria-label={`Questions of: ${name}`}>
        {person.questions.map((q) => (
          <Asked key={q.id} question={q} facts={facts} onGo={onClose} />
        ))}
      </ul>
      <p className="small quiet">In short, from the project as it stands; the place named has the working.</p>
    </Dialog>
  )
}

function Asked({ question, facts, onGo }: { question: Question; facts: Facts; onGo: () => void }) {
  const { act } = useShown()
  const { asks, answer, place, tries } = question
  const go = (): void => {
    onGo()
    toPlace(place(facts))
  }
  return (
    <li>
      <button type="button" className="link strong" onClick={go}>
        {asks}
      </button>
      <p>{answer(facts)}</p>
      {tries !== undefined && (
        <button
          type="button"
          onClick={() => {
            onGo()
            act.tryOut(tries.patch(facts.document), tries.what, '/parts')
          }}
        >
          Try it: {tries.what}
        </button>
      )}
    </li>
  )
}
