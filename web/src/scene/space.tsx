import { useEffect, useRef, useState } from 'react'
import { useShown } from '../state.ts'
import type { Scene, SceneStep } from './scene.ts'
import { type Stage3d, stage3d } from './stage3d.ts'

/** Shaft cut open, machine, and the pieces along their way out; drawn when something changes, not in a loop. */
export function Space() {
  const { client, summary, light } = useShown()
  const [scene, setScene] = useState<Scene>()
  const [at, setAt] = useState(0)
  const [picked, setPicked] = useState<string>()
  const place = useRef<HTMLDivElement>(null)
  const drawn = useRef<Stage3d>(undefined)
  // biome-ignore lint/correctness/useExhaustiveDependencies: the scene follows the summary
  useEffect(() => {
    client.ask('scene', {}).then((s) => setScene(s))
  }, [client, summary])
  useEffect(() => {
    if (place.current === null || scene === undefined) return
    const stage = stage3d(place.current, scene, setPicked)
    drawn.current = stage
    return () => stage?.end()
  }, [scene])
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new light redraws with its colours
  useEffect(() => drawn.current?.show(at, picked), [at, picked, scene, light])
  if (scene === undefined) return <div className="space" />
  const moves = Math.max(1, totalStops(scene.steps))
  return (
    <section>
      <div className="titled">
        <h2>Shaft and machine</h2>
        <span className="small quiet">
          drag to turn, wheel to come nearer, right button to shift; arrow keys move the slider
        </span>
      </div>
      <div
        className="space"
        ref={place}
        role="img"
        aria-label="The machine in the shaft, seen from the right, cut along the drive"
      />
      <div className="controls">
        <label htmlFor="along">Along the order</label>
        <input
          id="along"
          type="range"
          min={0}
          max={moves}
          step={0.02}
          value={at}
          onChange={(e) => setAt(Number(e.target.value))}
        />
        <span className="small" aria-live="polite" style={{ minWidth: 240 }}>
          {whereWords(scene.steps, at)}
        </span>
      </div>
      <p className="small">{picked === undefined ? 'Pick a part to read its name.' : pickedWords(scene, picked)}</p>
    </section>
  )
}

const totalStops = (steps: readonly SceneStep[]): number => steps.length

function whereWords(steps: readonly SceneStep[], at: number): string {
  const step = steps[Math.min(steps.length - 1, Math.floor(at))]
  if (step === undefined) return 'as found'
  return at === 0 ? 'as found' : `step ${Math.min(steps.length, Math.floor(at) + 1)} of ${steps.length}: ${step.name}`
}

function pickedWords(scene: Scene, id: string): string {
  const item = scene.items.find((i) => i.id === id)
  return item === undefined
    ? id
    : `${item.name} (${item.id})${item.piece === undefined ? '' : `, leaves with ${item.piece}`}`
}
