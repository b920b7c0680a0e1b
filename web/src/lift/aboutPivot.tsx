import { Picture } from './hanging.tsx'
import type { PivotView } from './pageView.ts'

/** Turning on the bay: the piece at every stage about its pivot, with what hook and pivot carry. */
export function AboutPivot({ pivot: { drawing, words, most, units } }: { pivot: PivotView }) {
  return (
    <section className="about-pivot">
      <div className="titled">
        <h2>Turning about the pivot</h2>
        <span className="small quiet">
          forces in {units.force}, lengths in {units.length}
        </span>
      </div>
      <Picture svg={drawing} name={`Turning about the pivot, looking left. ${words.join('; ')}`} />
      <p className="small quiet">
        From the pivot: above to the centre of gravity, below to the hoist line, which hangs plumb. The hook's bar is
        full at its rating, the pivot's at the weight.
      </p>
      <p>{most}</p>
    </section>
  )
}
