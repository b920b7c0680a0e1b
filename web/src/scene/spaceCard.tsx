import { useEffect, useState } from 'react'
import { figureOf } from '../parts/figures.ts'
import { VerdictWord } from '../parts/verdict.tsx'
import { routeTo, useShown } from '../state.ts'
import type { CardFact, CardView } from './card.ts'

interface CardOf {
  pointer: string | undefined
  /** It is selected, and not only what moves now. */
  selected: boolean
  along: number
  onSelect: (pointer: string | undefined) => void
}

/** What is known of what is selected; asked for again only when it, the step or the project changes. */
export function SpaceCard({ pointer, selected, along, onSelect }: CardOf) {
  const card = useCard(pointer, along)
  if (pointer === undefined || card === undefined)
    return (
      <aside className="space-card" aria-label="Card">
        <p>
          Pick a part, a piece, a bay, a layer of ground, a tower or what is fixed in the shaft: what is known of it
          stands here.
        </p>
      </aside>
    )
  return (
    <aside className="space-card" aria-label="Card">
      <div className="titled">
        <h3>{card.name}</h3>
        {selected && (
          <button type="button" className="link" onClick={() => onSelect(undefined)}>
            Let go
          </button>
        )}
      </div>
      <p className="small quiet">
        {card.kind} · {card.id}
      </p>
      <dl>
        {card.facts.map((fact) => (
          <Fact key={fact.label + (fact.words ?? '')} fact={fact} />
        ))}
      </dl>
      {card.next !== undefined && <p>{card.next}</p>}
      {card.blockers.length > 0 && (
        <p>
          In its way now:{' '}
          {card.blockers.map((b, i) => (
            <span key={b.pointer}>
              {i > 0 && ', '}
              <button type="button" className="link" onClick={() => onSelect(b.pointer)}>
                {b.name}
              </button>
            </span>
          ))}
          .
        </p>
      )}
      {card.drawn.map((words) => (
        <p key={words} className="small quiet">
          {words}
        </p>
      ))}
      <CardChecks card={card} />
      <ul className="links">
        {card.links.map((l) => (
          <li key={l.text}>
            <a href={routeTo(l.stage, l.item)}>{l.text}</a>
          </li>
        ))}
      </ul>
    </aside>
  )
}

/** What stands in its way is looked for once nothing has changed for so long, ms. */
const THOROUGH = 500

function useCard(pointer: string | undefined, along: number): CardView | undefined {
  const { client, summary } = useShown()
  const [card, setCard] = useState<CardView>()
  const place = Number.isInteger(along) ? along : Math.floor(along) + 0.5
  // biome-ignore lint/correctness/useExhaustiveDependencies: the card follows the summary
  useEffect(() => {
    let wanted = true
    const ask = (thorough: boolean): void => {
      if (pointer === undefined) setCard(undefined)
      else client.ask('card', { pointer, along: place, thorough }).then((c) => wanted && setCard(c))
    }
    ask(false)
    const later = setTimeout(() => ask(true), THOROUGH)
    return () => {
      wanted = false
      clearTimeout(later)
    }
  }, [client, summary, pointer, place])
  return card
}

function Fact({ fact }: { fact: CardFact }) {
  const { system } = useShown()
  return (
    <>
      <dt>{fact.label}</dt>
      <dd>{factText(fact, system)}</dd>
    </>
  )
}

function factText({ value, unit, about, words, place }: CardFact, system: 'SI' | 'US'): React.ReactNode {
  if (place !== undefined) {
    const shown = place.map((x) => figureOf(x, 'm', system, 10))
    return (
      <>
        {shown.map((s) => s.number).join(' · ')} <span className="small quiet">{shown[0]?.unit}, x · y · z</span>
      </>
    )
  }
  if (unit === undefined) return words
  const like = unit === 'm' ? 10 : value
  const figure = figureOf(value, unit, system, value === undefined ? undefined : like)
  const spread = about === undefined || value === undefined ? undefined : figureOf(about, unit, system, like)
  return (
    <>
      {figure.number} {spread === undefined ? '' : <span className="quiet">± {spread.number} </span>}
      <span className="small quiet">
        {figure.unit}
        {words === undefined ? '' : `, ${words}`}
      </span>
    </>
  )
}

function CardChecks({ card }: { card: CardView }) {
  if (card.checks.length === 0) return null
  return (
    <>
      <h4 className="small quiet">Not passing</h4>
      <ul className="checks">
        {card.checks.map((c) => (
          <li key={c.id}>
            <VerdictWord verdict={c.verdict} />
            <div>
              <a href={c.lift === undefined ? routeTo(c.stage) : routeTo('lift', c.lift)}>{c.title}</a>{' '}
              <span className="small quiet">{c.of}</span>
            </div>
          </li>
        ))}
        {card.more > 0 && <li className="small quiet">and {card.more} more</li>}
      </ul>
    </>
  )
}
