import type { Verdict } from '@shieldwright/engine/working/check.ts'
import { useEffect, useRef } from 'react'
import type { LiftView } from '../engine/protocol.ts'
import { VERDICT_WORD, VerdictMark } from '../parts/verdict.tsx'
import { routeTo, useShown } from '../state.ts'

/** What a lift does, as it stands in the strip and in headings. */
export const KIND_WORD: Readonly<Record<string, string>> = {
  out: 'out',
  turn: 'turned',
  move: 'on the bay',
  back: 'back',
}

const goesBack = ({ kind, goesBack }: LiftView): boolean => goesBack || kind === 'back'

/** Out of the shaft, on the bays, and back again the other way. */
const GROUPS: readonly (readonly [name: string, belongs: (lift: LiftView) => boolean])[] = [
  ['out', (lift) => lift.kind === 'out' && !goesBack(lift)],
  ['on the bay', (lift) => lift.kind !== 'out' && !goesBack(lift)],
  ['back', goesBack],
]

/** Lifts that stand together: like pieces one after another, or one alone. */
interface Bundle {
  name: string
  lifts: readonly LiftView[]
}

/** All lifts in order, out, on the bay and back, each with its worst verdict. */
export function OrderStrip({ chosen }: { chosen: string }) {
  const { summary } = useShown()
  const strip = useRef<HTMLElement>(null)
  // biome-ignore lint/correctness/useExhaustiveDependencies: where the strip is wider than the page, the lift looked at is in sight
  useEffect(() => {
    const mark = strip.current?.querySelector<HTMLElement>('[aria-current]')
    if (mark !== null && mark !== undefined && strip.current !== null)
      strip.current.scrollLeft = mark.offsetLeft - strip.current.clientWidth / 2
  }, [chosen])
  return (
    <nav ref={strip} className="order-strip" aria-label="Lifts in order">
      {GROUPS.map(([name, belongs]) => {
        const bundles = bundlesOf(summary.lifts.filter(belongs))
        return bundles.length === 0 ? null : (
          <div key={name}>
            <span className="kind small quiet">{name}</span>
            {bundles.map((bundle) => (
              <BundleMark key={bundle.lifts[0]?.id} bundle={bundle} chosen={chosen} />
            ))}
          </div>
        )
      })}
    </nav>
  )
}

/** From so many like pieces on they stand in a bundle. */
const MANY = 3

/** Names that differ only in a number at their end stand together, where there are many. */
function bundlesOf(lifts: readonly LiftView[]): Bundle[] {
  const bundles: { name: string; lifts: LiftView[] }[] = []
  for (const lift of lifts) {
    const name = lift.short.replace(/\s*\d+$/, '')
    const last = bundles.at(-1)
    if (last !== undefined && last.name === name && name !== lift.short) last.lifts.push(lift)
    else bundles.push({ name, lifts: [lift] })
  }
  return bundles.flatMap((b) => (b.lifts.length >= MANY ? [b] : b.lifts.map((l) => ({ name: l.short, lifts: [l] }))))
}

function BundleMark({ bundle: { name, lifts }, chosen }: { bundle: Bundle; chosen: string }) {
  const [only] = lifts
  if (lifts.length === 1 && only !== undefined) return <LiftMark lift={only} isChosen={only.id === chosen} />
  const verdict = worstVerdict(lifts)
  const inside = lifts.find((l) => l.id === chosen)
  return (
    <details className="bundle" open={inside !== undefined || undefined}>
      <summary className="lift-mark">
        {name}s {lifts.length}
        <span className={`verdict ${verdict}`}>
          <VerdictMark verdict={verdict} />
          <span className="unseen">{VERDICT_WORD[verdict]}</span>
        </span>
      </summary>
      {lifts.map((lift) => (
        <LiftMark key={lift.id} lift={lift} isChosen={lift.id === chosen} word={lift.short.slice(name.length).trim()} />
      ))}
    </details>
  )
}

function LiftMark({ lift, isChosen, word = lift.short }: { lift: LiftView; isChosen: boolean; word?: string }) {
  return (
    <a
      className="lift-mark"
      href={routeTo('lift', lift.id)}
      aria-current={isChosen ? 'page' : undefined}
      title={lift.name}
    >
      {word}
      {lift.kind === 'turn' && <span className="quiet"> turned</span>}
      <span className={`verdict ${lift.verdict}`}>
        <VerdictMark verdict={lift.verdict} />
        <span className="unseen">{VERDICT_WORD[lift.verdict]}</span>
      </span>
    </a>
  )
}

const WORST: readonly Verdict[] = ['fail', 'open', 'near', 'pass']

const worstVerdict = (lifts: readonly LiftView[]): Verdict =>
  WORST.find((verdict) => lifts.some((l) => l.verdict === verdict)) ?? 'pass'
