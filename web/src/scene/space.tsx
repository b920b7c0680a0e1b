import './space.css'
import type { Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import { Fragment, type KeyboardEvent, useCallback, useEffect, useMemo, useRef, useState } from 'react'
import { Vector3 } from 'three'
import { figureOf } from '../parts/figures.ts'
import { useCommon, useCommonStore } from '../shared.ts'
import { useShown } from '../state.ts'
import { type Clear, clearText } from './clearance.ts'
import { CutTool } from './cutTool.tsx'
import { layersDrawn } from './inking.ts'
import { InView } from './inView.tsx'
import type { Looking } from './look.ts'
import { spansOf } from './measure.ts'
import { Playback } from './playback.tsx'
import { stopFrom, usePlaying } from './playing.ts'
import { sectionReach } from './reach.ts'
import { readView, type SavedView, viewsIn } from './savedView.ts'
import type { Scene } from './scene.ts'
import type { Layer } from './sceneItem.ts'
import type { Shown3d } from './shown.ts'
import { SpaceCard } from './spaceCard.tsx'
import { SpaceLayers, SpaceTools, type Tools, VIEWS } from './spaceTools.tsx'
import { type Pointed, type Stage3d, stage3d } from './stage3d.ts'
import { momentAt, stopsOf } from './stand.ts'
import { useClearances } from './useClearances.ts'
import { ViewsTool } from './viewsTool.tsx'

const TOOLS: Tools = {
  hidden: new Set<Layer>(['services']),
  through: false,
  ghost: false,
  section: undefined,
  measuring: false,
}

const KEYS =
  'Arrows turn, with Shift they shift. Plus and minus come nearer. Page Up and Page Down step along the order, Space plays. ' +
  'O whole, S side, F front, A above, P along the path, L look at it, M measure, 1 to 9 saved views. Escape lets go.'

/** Shaft cut open, machine, and the pieces along their way out and back; drawn when something changes, not in a loop. */
export function Space() {
  const { system, document } = useShown()
  const scene = useScene()
  const store = useCommonStore()
  const { selected, along, set } = useCommon()
  const [tools, setTools] = useState(TOOLS)
  const [measured, setMeasured] = useState<Shown3d['measured']>()
  const [flat, setFlat] = useState(false)
  const [cutAt, setCut] = useState<string>()
  const cut = scene?.cuts.find((c) => c.pointer === cutAt)
  const place = useRef<HTMLDivElement>(null)
  const stage = useRef<Stage3d>(undefined)
  const slider = useRef<HTMLInputElement>(null)
  const looked = useRef<Looking>(undefined)

  const clearances = useClearances(scene, () => {
    stage.current?.again()
    tellClear.current()
  })
  const clearNow = useRef<HTMLParagraphElement>(null)
  const at = useRef(along)
  const tellClear = useRef(() => {})
  tellClear.current = () => {
    if (scene === undefined || clearNow.current === null) return
    const clear = clearances.at(momentAt(scene, at.current))
    const text = clear === undefined ? '' : nearestWords(clear, system)
    if (clearNow.current.textContent !== text) clearNow.current.textContent = text
  }

  const draw = useCallback(
    (to: number, moving = false) => {
      at.current = to
      stage.current?.setAlong(to)
      clearances.want(to, moving)
      tellClear.current()
      if (slider.current !== null) slider.current.value = String(to)
    },
    [clearances],
  )
  const { playing, play, stop } = usePlaying(scene, store, (to) => draw(to, true))

  const pointed = useRef<(p: Pointed) => void>(() => {})
  pointed.current = (p) => {
    if (!tools.measuring) return set({ selected: p.pointer })
    const { at } = p
    if (at === undefined) return setMeasured(undefined)
    setMeasured((m) => (m === undefined || m.to !== undefined ? { from: at, to: undefined } : { from: m.from, to: at }))
  }
  useEffect(() => {
    if (place.current === null || scene === undefined) return
    stage.current = stage3d(
      place.current,
      scene,
      { onPoint: (p) => pointed.current(p), clearAt: clearances.at },
      looked.current,
    )
    setFlat(stage.current === undefined)
    return () => {
      looked.current = stage.current?.looking()
      stage.current?.end()
      stage.current = undefined
    }
  }, [scene, clearances])

  const shown = useMemo<Shown3d>(
    () => ({
      selected,
      hidden: tools.hidden,
      through: tools.through,
      ghost: tools.ghost,
      section: tools.section,
      measured,
      cut,
      lengthText: (x) => lengthText(Math.abs(x), system),
      levelText: (x) => levelText(x, system),
    }),
    [selected, tools, measured, cut, system],
  )
  // biome-ignore lint/correctness/useExhaustiveDependencies: the words are written in the units chosen
  useEffect(() => tellClear.current(), [system])
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new scene is shown what the last one was
  useEffect(() => stage.current?.show(shown), [shown, scene])
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new scene stands where the last one did
  useEffect(() => {
    if (!playing) draw(along)
  }, [along, playing, scene, draw])
  const select = useCallback(
    (pointer: string | undefined) => {
      const middle = pointer === undefined ? undefined : stage.current?.middleOf(pointer)
      if (!tools.measuring || middle === undefined) return set({ selected: pointer })
      setMeasured((m) =>
        m === undefined || m.to !== undefined ? { from: middle, to: undefined } : { from: m.from, to: middle },
      )
    },
    [set, tools.measuring],
  )
  const change = (part: Partial<Tools>): void => {
    setTools((t) => ({ ...t, ...part }))
    if (part.measuring === false) setMeasured(undefined)
  }
  const step = (by: 1 | -1): void => {
    stop()
    if (scene !== undefined) set({ along: stopFrom(store.now().along, by, stopsOf(scene)) })
  }
  const picture = (): Omit<SavedView, 'name'> | undefined => {
    const look = stage.current?.lookNow()
    if (look === undefined) return undefined
    const { hidden, through, ghost, section } = tools
    const { target, around, up, distance, parallel } = look
    const seen = { target: target.toArray() as Vec3, around, up, distance, parallel }
    return { ...seen, hidden: [...hidden], through, ghost, section, selected, along: store.now().along }
  }
  const lookAs = ({ target, around, up, distance, parallel, ...view }: SavedView): void => {
    stop()
    const { hidden, through, ghost, section } = view
    change({ hidden: new Set(hidden), through, ghost, section, measuring: false })
    set({ selected: view.selected, along: scene === undefined ? view.along : Math.min(view.along, stopsOf(scene)) })
    stage.current?.lookAs({ target: new Vector3(...target), around, up, distance, parallel })
  }
  const reach = useMemo(() => (scene === undefined ? [] : sectionReach(scene)), [scene])
  const present = useMemo(() => (scene === undefined ? [] : layersDrawn(scene)), [scene])
  if (scene === undefined) return <div className="space" />

  const onKey = (e: KeyboardEvent): void => {
    if (e.ctrlKey || e.metaKey || e.altKey) return
    if (!acts(e)) return
    e.preventDefault()
    e.stopPropagation()
  }
  const acts = (e: KeyboardEvent): boolean => {
    const now = stage.current
    const arrow = ARROWS[e.key]
    if (arrow !== undefined) {
      if (e.shiftKey) now?.shift(arrow[0] * SHIFT, -arrow[1] * SHIFT)
      else now?.turn(arrow[0] * TURN, -arrow[1] * TURN)
      return true
    }
    if (e.key === '+' || e.key === '=') now?.nearer(1 / 1.15)
    else if (e.key === '-') now?.nearer(1.15)
    else if (e.key === 'PageUp' || e.key === 'PageDown') step(e.key === 'PageDown' ? 1 : -1)
    else if (e.key === ' ') (playing ? stop : play)()
    else if (e.key === 'm') change({ measuring: !tools.measuring })
    else if (e.key === 'Escape' && (tools.measuring || selected !== undefined)) {
      if (tools.measuring) change({ measuring: false })
      else set({ selected: undefined })
    } else if (/^[1-9]$/.test(e.key)) {
      const kept = Object.values(viewsIn(document))[Number(e.key) - 1]
      if (kept === undefined) return false
      lookAs(readView(kept))
    } else {
      const view = VIEWS.find((v) => v.key === e.key)
      if (view === undefined) return false
      now?.lookFrom(view.view)
    }
    return true
  }
  return (
    <section className="space-section" data-playing={playing}>
      <div className="titled">
        <h2>Shaft and machine</h2>
        <span className="small quiet">
          drag to turn, with Shift to shift; once it has the focus, the wheel comes nearer and keys work
        </span>
      </div>
      <SpaceTools
        tools={tools}
        selected={selected}
        reach={reach}
        onTools={change}
        onView={(view) => stage.current?.lookFrom(view)}
      />
      <div className="space-and-card">
        <div className="space-view">
          <div
            className="space"
            ref={place}
            // biome-ignore lint/a11y/noNoninteractiveTabindex: the drawing is worked by keys of its own
            tabIndex={0}
            role="application"
            aria-label="The machine in the shaft, cut open along the drive"
            aria-describedby="space-keys"
            onKeyDown={onKey}
          >
            {flat && (
              <p className="flat">
                This browser cannot draw in three dimensions. What would be drawn stands in the list below, and every
                figure in the tables.
              </p>
            )}
          </div>
          <p id="space-keys" className="unseen">
            {KEYS}
          </p>
          <Playback
            scene={scene}
            along={along}
            playing={playing}
            slider={slider}
            clear={clearNow}
            onAlong={(at) => {
              stop()
              draw(at)
              set({ along: at })
            }}
            onStep={step}
            onPlay={playing ? stop : play}
          />
        </div>
        <div className="space-beside">
          <SpaceLayers tools={tools} present={present} onTools={change} />
          <ViewsTool now={picture} onView={lookAs} />
          <CutTool cuts={scene.cuts} chosen={cut} onCut={setCut} />
          {tools.measuring && <MeasureWords measured={measured} shown={shown} />}
          <SpaceCard
            selected={selected !== undefined}
            pointer={selected ?? stepPointer(scene, along)}
            along={along}
            onSelect={select}
          />
        </div>
      </div>
      <InView scene={scene} stop={Math.floor(along)} selected={selected} alone={flat} onSelect={select} />
    </section>
  )
}

const TURN = 0.09
const SHIFT = 40
const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
}
/** The scene of the project as it stands; one with the same content stays the same, so that nothing is built again. */
function useScene(): Scene | undefined {
  const { client, summary } = useShown()
  const [held, setHeld] = useState<{ scene: Scene; text: string }>()
  // biome-ignore lint/correctness/useExhaustiveDependencies: the scene follows the summary
  useEffect(() => {
    let wanted = true
    client.ask('scene', {}).then((scene) => {
      if (!wanted || scene === undefined) return
      const text = JSON.stringify(scene)
      setHeld((h) => (h?.text === text ? h : { scene, text }))
    })
    return () => {
      wanted = false
    }
  }, [client, summary])
  return held?.scene
}

/** Nothing selected: the card is of what moves. */
function stepPointer(scene: Scene, along: number): string | undefined {
  if (along <= 0 || Number.isInteger(along)) return undefined
  const n = scene.steps.length
  const index = along <= n ? Math.ceil(along) - 1 : Math.floor(2 * n - along)
  const step = scene.steps[index]
  return step === undefined ? undefined : `/steps/${step.step}`
}

function MeasureWords({ measured, shown }: { measured: Shown3d['measured']; shown: Shown3d }) {
  const to = measured?.to
  const spans = measured === undefined || to === undefined ? undefined : spansOf({ from: measured.from, to })
  return (
    <div className="measured" aria-live="polite">
      {spans === undefined ? (
        <p>
          {measured === undefined ? 'Point at the first of two places, or choose it in the list.' : 'Now the second.'}
        </p>
      ) : (
        <dl>
          <dt>Distance</dt>
          <dd>{shown.lengthText(spans.distance)}</dd>
          {(['dx', 'dy', 'dz'] as const).map((name) => (
            <Fragment key={name}>
              <dt>{name}</dt>
              <dd>{shown.levelText(spans[name])}</dd>
            </Fragment>
          ))}
        </dl>
      )}
    </div>
  )
}

function nearestWords(clear: Clear, system: 'SI' | 'US'): string {
  const as = clear.as === undefined || clear.as === 'as found' ? '' : `, ${clear.as}`
  return `Nearest now: ${clearText(clear, (x) => lengthText(Math.abs(x), system))}${as}`
}

function lengthText(metres: number, system: 'SI' | 'US'): string {
  const { number, unit } = figureOf(metres, 'm', system, system === 'SI' ? 10 : metres)
  return `${number}\u00a0${unit}`
}

/** A level with its sign, as levels are written. */
function levelText(metres: number, system: 'SI' | 'US'): string {
  const { number, unit } = figureOf(Math.abs(metres), 'm', system, 10)
  const sign = Number(number) === 0 ? '±' : metres < 0 ? '−' : '+'
  return `${sign}${number}\u00a0${unit}`
}
