import { useState } from 'react'

interface RevisionChoiceProps {
  label: string
  /** What is chosen: one of the choices, or the number of a revision. */
  value: string
  /** The latest revision. */
  most: number
  /** What can be chosen without its number, as it is called. */
  choices: readonly (readonly [value: string, words: string])[]
  onChoose: (value: string) => void
}

const BY_NUMBER = '#'

/** One of a few, or any revision by its number. */
export function RevisionChoice({ label, value, most, choices, onChoose }: RevisionChoiceProps) {
  const [byNumber, setByNumber] = useState(false)
  const choose = (chosen: string): void => {
    setByNumber(chosen === BY_NUMBER)
    onChoose(chosen === BY_NUMBER ? String(Math.max(1, most - 1)) : chosen)
  }
  return (
    <span className="revision-choice">
      <label>
        {label}{' '}
        <select value={byNumber ? BY_NUMBER : value} onChange={(e) => choose(e.target.value)}>
          {choices.map(([of, words]) => (
            <option key={of} value={of}>
              {words}
            </option>
          ))}
          <option value={BY_NUMBER}>a revision by its number</option>
        </select>
      </label>
      {byNumber && (
        <input
          type="number"
          min={1}
          max={most}
          value={value}
          aria-label={`${label}: number of the revision`}
          onChange={(e) => onChoose(e.target.value)}
        />
      )}
    </span>
  )
}
