import { useEffect, useState } from 'react'
import type { DrawnView } from '../engine/protocol.ts'
import { useShown } from '../state.ts'

/** Drawings that the engine makes: asked for again when the project changes; the last ones stay until then. */
export function Drawn({ ask, of }: { ask: () => Promise<readonly DrawnView[]>; of: string }) {
  const { summary } = useShown()
  const [views, setViews] = useState<readonly DrawnView[]>([])
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked for once for each summary and thing drawn
  useEffect(() => {
    let here = true
    ask().then((drawn) => here && setViews(drawn))
    return () => {
      here = false
    }
  }, [of, summary])
  return views.map((view) => (
    <section key={view.title}>
      <h2>{view.title}</h2>
      <div className="drawing" role="img" aria-label={view.title}>
        {/* biome-ignore lint/security/noDangerouslySetInnerHtml: SVG written by the engine's own writer, text escaped there */}
        <div dangerouslySetInnerHTML={{ __html: view.svg }} />
      </div>
    </section>
  ))
}
