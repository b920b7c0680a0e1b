import { CheckTable, worstFirst } from '../parts/checks.tsx'
import { useShown } from '../state.ts'

/** The checks of one stage, worst first. */
export function StageChecks({ stage }: { stage: string }) {
  const { summary } = useShown()
  const checks = summary.checks.filter((c) => c.stage === stage).sort(worstFirst)
  if (checks.length === 0) return null
  return (
    <section>
      <h2>Checks</h2>
      <CheckTable checks={checks} caption={`Checks of ${stage}`} />
    </section>
  )
}
