import type { Ref } from 'react'
import { useInstantText } from '../campaign/instant.ts'
import type { Scene } from './scene.ts'
import { stopsOf } from './stand.ts'
import { whereWords } from './words.ts'

interface PlaybackOf {
  scene: Scene
  along: number
  playing: boolean
  slider: Ref<HTMLInputElement>
  /** Where the least clearance of the moment is written, as often as it changes. */
  clear: Ref<HTMLParagraphElement>
  onAlong: (along: number) => void
  onStep: (by: 1 | -1) => void
  onPlay: () => void
}

/** Along the order and back: a slider, a step either way, play. */
export function Playback({ scene, along, playing, slider, clear, onAlong, onStep, onPlay }: PlaybackOf) {
  const stops = stopsOf(scene)
  const words = whereWords(scene, along)
  const instant = useInstantText()
  return (
    <div className="playback">
      <div className="keys">
        <button type="button" onClick={() => onStep(-1)} disabled={along <= 0} aria-keyshortcuts="PageUp">
          Step back
        </button>
        <button type="button" className="play" onClick={onPlay} disabled={stops === 0} aria-keyshortcuts="Space">
          {playing ? 'Stop' : 'Play'}
        </button>
        <button type="button" onClick={() => onStep(1)} disabled={along >= stops} aria-keyshortcuts="PageDown">
          Step on
        </button>
      </div>
      <div className="run">
        <label htmlFor="along" className="unseen">
          Along the order
        </label>
        <input
          id="along"
          ref={slider}
          type="range"
          min={0}
          max={Math.max(1, stops)}
          step={0.01}
          defaultValue={along}
          aria-valuetext={words}
          onInput={(e) => onAlong(Number(e.currentTarget.value))}
        />
        <div className="ends small quiet" aria-hidden="true">
          <span>as found</span>
          <span>all out</span>
          <span>all back</span>
        </div>
      </div>
      <div className="where">
        <p aria-live="polite">{words}</p>
        {instant !== undefined && <p className="small quiet instant">{instant} in the plan</p>}
        <p ref={clear} className="small clear-now" />
      </div>
    </div>
  )
}
