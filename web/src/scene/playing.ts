import { useCallback, useEffect, useRef, useState } from 'react'
import type { CommonStore } from '../shared.ts'
import type { Scene, SceneStep } from './scene.ts'
import { momentAt, stopsOf } from './stand.ts'

/** Metres of its way that a piece goes in a second while playing. */
const PACE = 22
const SHORTEST = 0.7
const LONGEST = 4.5
/** The other views are told where it is this often, ms: the drawing follows every frame. */
const TOLD = 800
/** Under reduced motion a step is shown this long, ms. */
const SHOWN = 1200

/** How long the way of a step takes to play, s. */
export function secondsOf(step: SceneStep | undefined): number {
  const legs = step?.passage.way.legs ?? []
  const metres = legs.reduce((sum, leg) => sum + ('by' in leg ? Math.hypot(...leg.by) : 6 * Math.hypot(...leg.turn)), 0)
  return Math.min(LONGEST, Math.max(SHORTEST, metres / PACE))
}

/** The next whole stop from a place, forward or back. */
export function stopFrom(along: number, by: 1 | -1, stops: number): number {
  const near = by === 1 ? Math.floor(along + 1e-9) + 1 : Math.ceil(along - 1e-9) - 1
  return Math.min(stops, Math.max(0, near))
}

export interface Playing {
  playing: boolean
  play: () => void
  stop: () => void
}

/** Plays along the order, frame by frame and only while it plays; by whole steps where motion is to be reduced. */
export function usePlaying(scene: Scene | undefined, store: CommonStore, draw: (along: number) => void): Playing {
  const [playing, setPlaying] = useState(false)
  const drawing = useRef(draw)
  drawing.current = draw
  const stop = useCallback(() => setPlaying(false), [])
  const play = useCallback(() => setPlaying(true), [])
  useEffect(() => {
    if (!playing || scene === undefined) return
    const stops = stopsOf(scene)
    if (store.now().along >= stops) store.set({ along: 0 })
    if (matchMedia('(prefers-reduced-motion: reduce)').matches) {
      const timer = setInterval(() => {
        const next = stopFrom(store.now().along, 1, stops)
        store.set({ along: next })
        if (next >= stops) setPlaying(false)
      }, SHOWN)
      return () => clearInterval(timer)
    }
    let along = store.now().along
    let told = along
    let before: number | undefined
    let toldAt = 0
    let asked = 0
    const tick = (now: number): void => {
      if (store.now().along !== told) along = store.now().along
      const past = before === undefined ? 0 : Math.min(0.1, (now - before) / 1000)
      before = now
      const step = momentAt(scene, along + 1e-6).step
      along = Math.min(stops, along + past / secondsOf(scene.steps[step ?? 0]))
      drawing.current(along)
      const over = along >= stops
      told = store.now().along
      if (over || now - toldAt > TOLD) {
        toldAt = now
        told = along
        store.set({ along })
      }
      if (over) setPlaying(false)
      else asked = requestAnimationFrame(tick)
    }
    asked = requestAnimationFrame(tick)
    return () => {
      cancelAnimationFrame(asked)
      store.set({ along })
    }
  }, [playing, scene, store])
  return { playing, play, stop }
}
