import type { AgendaPiece } from '@shieldwright/engine/report/campaign/index.ts'

/** Where the pointer is, px in the diagram. */
export interface At {
  x: number
  y: number
}

interface CardProps {
  at: At
  width: number
  piece: AgendaPiece | undefined
  words: string
}

const CARD = 310

/** The numbers of what the pointer rests on, beside it. The same is told in words to those who do not see it. */
export function Card({ at, width, piece, words }: CardProps) {
  const left = at.x + 16 + CARD > width ? Math.max(0, at.x - 16 - CARD) : at.x + 16
  return (
    <div className="card small" style={{ left, top: at.y + 14 }} aria-hidden="true">
      {piece === undefined ? (
        words
      ) : (
        <>
          <div className="strong">{piece.name}</div>
          <dl>
            <Line term="out">
              {piece.out} to {piece.bay}
            </Line>
            <Line term="mass">
              {piece.mass}, {piece.basis}
            </Line>
            <Line term="hook">
              {piece.hook}, use {piece.use}
            </Line>
            <Line term="stops at">gusts of {piece.wind}</Line>
            {piece.turned !== '' && <Line term="turned">{piece.turned}</Line>}
            <Line term="back">
              {piece.back}
              {piece.change === '' ? '' : `, ${piece.change}`}
            </Line>
          </dl>
        </>
      )}
    </div>
  )
}

const Line = ({ term, children }: { term: string; children: React.ReactNode }) => (
  <>
    <dt>{term}</dt>
    <dd>{children}</dd>
  </>
)
