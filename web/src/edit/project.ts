import { inversePatch, touchedBy } from '@shieldwright/engine/working/inverse.ts'
import { applyPatch, type Patch } from '@shieldwright/engine/working/patch.ts'
import { at } from '@shieldwright/engine/working/pointer.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import type { EngineClient } from '../engine/client.ts'
import { NO_PREVIEW } from '../engine/noPreview.ts'
import type { Summary } from '../engine/protocol.ts'
import type { Host, LoggedChange, ReversibleChange } from '../host.ts'
import type { Conflict, Edit, EditActions, LastEdit, Link, RefusedCell, Trial } from '../state.ts'
import { cellText } from './cell.ts'
import {
  afterRedo,
  afterUndo,
  type History,
  type KeptEdit,
  movedOn,
  NO_HISTORY,
  type RememberedHistory,
  recalled,
  remembered,
  withEdit,
} from './history.ts'
import { editsAtFault, movedOnto, withFurther, withoutEdits } from './trial.ts'

export interface Held {
  document: unknown
  revision: number
  summary: Summary
}

/** The project as this page holds it, and what is being done to it. */
export interface ProjectState {
  held: Held | undefined
  /** What keeps the kept project from being shown. */
  problems: readonly Problem[]
  trial: Trial | undefined
  last: LastEdit | undefined
  refused: readonly Problem[]
  refusedCells: ReadonlyMap<string, RefusedCell>
  refusedLines: readonly string[]
  conflict: Conflict | undefined
  history: History
  link: Link
  readOnly: string | undefined
}

export interface ProjectStore extends EditActions {
  now: () => ProjectState
  subscribe: (told: () => void) => () => void
  /** Opens the kept project and follows it until released. */
  open: () => () => void
}

/** Keeps the revisions of this page's edits over a reload. */
export interface Recall {
  read: () => RememberedHistory | undefined
  write: (history: RememberedHistory) => void
}

interface Around {
  client: EngineClient
  host: Host
  recall: Recall
  /** The engine that this page runs. */
  engine: string
}

const NOTHING: ProjectState = {
  held: undefined,
  problems: [],
  trial: undefined,
  last: undefined,
  refused: [],
  refusedCells: new Map(),
  refusedLines: [],
  conflict: undefined,
  history: NO_HISTORY,
  link: { state: 'live' },
  readOnly: undefined,
}

const SETTLED = { refused: [], conflict: undefined } as const
const LONGEST_WHY = 480
/** How far back undo reaches after a reload. */
const MOST_RECALLED = 200

/**
 * One project open on a page. Kept changes, this page's own and others', are taken one after another; what is being looked
 * at stands on the latest of them.
 */
export function projectStore({ client, host, recall, engine }: Around): ProjectStore {
  let state = NOTHING
  const listeners = new Set<() => void>()
  const set = (change: Partial<ProjectState>): void => {
    state = { ...state, ...change }
    for (const told of listeners) told()
  }
  let turn: Promise<unknown> = Promise.resolve()
  /** Kept changes are taken one at a time, in the order they came. */
  const inTurn = (work: (held: Held) => Promise<void>): void => {
    turn = turn
      .then(() => (state.held === undefined ? undefined : work(state.held)))
      .catch((error: Error) => {
        set({
          refused: [{ pointer: '', found: error.message, expected: 'the change to be followed; reload the page' }],
        })
      })
  }

  const look = async (trial: Trial): Promise<void> => {
    set({ trial, refused: [] })
    const preview = await client.preview(trial.patch)
    if (preview === undefined || state.trial?.patch !== trial.patch || state.held === undefined) return
    const atFault = editsAtFault(trial, preview.problems)
    if (atFault.length === 0) return set({ trial: { ...state.trial, preview, pending: false } })
    set({
      refusedCells: withRefused(state.refusedCells, trial, atFault, preview.problems),
      refusedLines: linesRefused(atFault, preview.problems),
    })
    const left = withoutEdits(state.held.document, trial, atFault)
    if (left === undefined) set({ trial: undefined })
    else await look(left)
  }

  const tryOut = (patch: Patch, what: string, block?: string): void => {
    if (state.held === undefined || state.readOnly !== undefined) return
    const further = withFurther(state.held.document, state.trial, patch, what, block)
    if ('problems' in further) {
      set({ refused: further.problems })
      return
    }
    const cells = new Map([...state.refusedCells].filter(([pointer]) => !patch.some((op) => op.path === pointer)))
    set({ refusedCells: cells, refusedLines: [], conflict: undefined })
    if (further.trial.patch.length === 0) set({ trial: undefined })
    else void look(further.trial)
  }

  /** The project after a kept change, in the worker and here. */
  const taken = async (held: Held, { revision, patch }: Pick<LoggedChange, 'revision' | 'patch'>) => {
    const kept = await client.ask('keep', { patch })
    const after = applyPatch(held.document, patch)
    if (kept.summary === undefined || 'problems' in after)
      throw new Error(kept.problems[0]?.expected ?? `revision ${revision} does not fit`)
    const next: Held = { document: after.document, revision, summary: kept.summary }
    return { next, preview: kept.preview ?? NO_PREVIEW }
  }

  const sendOff = async (
    held: Held,
    edit: { patch: Patch; what: string; why: string },
  ): Promise<{ kept: KeptEdit; shown: Pick<ProjectState, 'held' | 'last'>; changes: LoggedChange[] } | undefined> => {
    const why = edit.why === '' ? edit.what : `${edit.what}. Why: ${edit.why}`
    const sent = await host.sendChange(held.revision, edit.patch, why.slice(0, LONGEST_WHY))
    if ('changed' in sent && sent.changed !== undefined) {
      await refusedBy(held, edit, sent.changed, sent.problems)
      return undefined
    }
    if ('problems' in sent) {
      set({ refused: sent.problems })
      return undefined
    }
    const { revision, under } = sent
    const base = await followed(held, under)
    const { next, preview } = await taken(base, { revision, patch: edit.patch })
    const kept: KeptEdit = {
      revision,
      what: edit.what,
      forward: edit.patch,
      inverse: inversePatch(base.document, edit.patch),
      touched: touchedBy(base.document, edit.patch),
    }
    const own: LoggedChange = { revision, at: '', by: '', why, patch: edit.patch }
    return { kept, shown: { held: next, last: { what: edit.what, preview } }, changes: [...under, own] }
  }

  /** Others' changes taken over, without a word of their own. */
  const followed = async (held: Held, changes: readonly LoggedChange[]): Promise<Held> => {
    let current = held
    for (const change of changes) {
      if (change.revision <= current.revision) continue
      current = (await taken(current, change)).next
    }
    return current
  }

  const refusedBy = async (
    held: Held,
    edit: { patch: Patch; what: string },
    changed: readonly LoggedChange[],
    problems: readonly Problem[],
  ): Promise<void> => {
    const trial: Trial = state.trial ?? {
      ...edit,
      edits: [],
      why: '',
      document: held.document,
      preview: NO_PREVIEW,
      pending: false,
    }
    const moved = movedOnto(held.document, { ...trial, patch: edit.patch }, changed)
    const next = await followed(held, changed)
    const entries = changed.map(({ patch: _patch, ...entry }) => entry)
    const conflict: Conflict =
      'conflict' in moved ? { ...moved.conflict, problems } : { edit: trial, clashes: [], changed: entries, problems }
    set({ held: next, trial: undefined, conflict })
  }

  const keep = (): void => {
    const { trial, readOnly } = state
    if (trial === undefined || trial.pending || trial.preview.problems.length > 0 || readOnly !== undefined) return
    inTurn(async (held) => {
      if (state.trial?.patch !== trial.patch) return
      const sent = await sendOff(held, state.trial)
      if (sent === undefined) return
      const isSame = state.trial?.patch === trial.patch
      set({ ...sent.shown, ...SETTLED, ...(isSame ? { trial: undefined } : {}) })
      remember(withEdit(state.history, sent.kept))
      restandOn(held, sent.changes)
    })
  }

  const remember = (history: History): void => {
    recall.write(remembered(history))
    set({ history })
  }

  const takeBack = (which: 'undo' | 'redo'): void => {
    inTurn(async (held) => {
      const edit = (which === 'undo' ? state.history.done : state.history.undone).at(-1)
      if (edit === undefined || state.readOnly !== undefined) return
      const moved = movedOn(held.document, edit.touched, which === 'undo' ? 'after' : 'before')
      if (moved.length > 0) return set({ refused: moved.map((place) => overtaken(which, edit, place.pointer)) })
      const patch = which === 'undo' ? edit.inverse : edit.forward
      const what = `${which === 'undo' ? 'undone' : 'done again'}: ${edit.what}`
      const sent = await sendOff(held, { patch, what, why: '' })
      if (sent === undefined) return
      set({ ...sent.shown, ...SETTLED })
      remember(which === 'undo' ? afterUndo(state.history) : afterRedo(state.history))
      restandOn(held, sent.changes)
    })
  }

  /** Revisions that the host made for this page. */
  const own = new Set<number>()

  const hosted = (send: () => Promise<number | undefined>): Promise<void> =>
    new Promise((resolve) => {
      // in turn: the news of it waits for the answer, and is then known to be this page's own
      inTurn(async () => {
        const revision = await send().finally(resolve)
        if (revision !== undefined) own.add(revision)
      })
    })

  const told = (change: LoggedChange): void => {
    inTurn(async (held) => {
      if (change.revision <= held.revision) return
      const missed = change.revision === held.revision + 1 ? [] : (await host.readLog(held.revision)).changes
      const base = await followed(
        held,
        missed.filter((c) => c.revision < change.revision),
      )
      const { next, preview } = await taken(base, change)
      const elsewhere = own.delete(change.revision) ? {} : { elsewhere: { by: change.by, at: change.at } }
      set({ held: next, last: { what: change.why, preview, ...elsewhere } })
      restandOn(held, [...missed.filter((c) => c.revision < change.revision), change])
    })
  }

  /** What is being looked at, on top of what was kept since. */
  const restandOn = (before: Held, changes: readonly LoggedChange[]): void => {
    const { trial } = state
    if (trial === undefined) return
    const moved = movedOnto(before.document, trial, changes)
    if ('conflict' in moved) set({ trial: undefined, conflict: moved.conflict })
    else if (moved.trial.patch.length === 0) set({ trial: undefined })
    else void look(moved.trial)
  }

  const open = (): (() => void) => {
    let release = (): void => undefined
    let here = true
    const shown = (got: Opened): void => {
      if (here) set(got)
    }
    const opening = opened(client, host, shown)
    turn = opening // What is kept meanwhile waits for the engine.
    void opening.then((got) => {
      if (!here) return
      set(got)
      if (got.held === undefined) return
      const { held } = got
      void earlierEdits(host, recall, held.revision).then((history) => state.history === NO_HISTORY && set({ history }))
      release = host.follow(() => state.held?.revision ?? held.revision, {
        joined: (theirs) => set({ link: { state: 'live' }, readOnly: otherEngine(engine, theirs.engine) }),
        change: told,
        lost: () => state.link.state === 'live' && set({ link: { state: 'lost', since: Date.now() } }),
      })
    })
    return () => {
      here = false
      release()
    }
  }

  return {
    now: () => state,
    subscribe: (listener) => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    open,
    tryOut,
    refuse: (pointer, cell) => {
      const cells = new Map(state.refusedCells)
      if (cell === undefined) cells.delete(pointer)
      else cells.set(pointer, cell)
      set({ refusedCells: cells })
    },
    refuseLines: (refusedLines) => set({ refusedLines }),
    setWhy: (why) => state.trial !== undefined && set({ trial: { ...state.trial, why } }),
    keep,
    discard: () => set({ trial: undefined, conflict: undefined, refused: [], refusedLines: [] }),
    undo: () => takeBack('undo'),
    redo: () => takeBack('redo'),
    hosted,
    tryAgain: () => {
      const { conflict } = state
      if (conflict === undefined) return
      set({ conflict: undefined })
      tryOut(conflict.edit.patch, conflict.edit.what)
    },
  }
}

type Opened = Pick<ProjectState, 'held' | 'problems'>

/** The kept project, derived here; what the host has derived of it is shown in the meantime. */
async function opened(client: EngineClient, host: Host, shown: (got: Opened) => void): Promise<Opened> {
  const reading = host.readSummary?.().catch(() => undefined)
  const kept = await host.readKept()
  if ('problems' in kept) return { held: undefined, problems: kept.problems }
  const deriving = client.ask('open', { document: kept.document })
  const theirs = await Promise.race([reading, deriving.then(() => undefined)])
  if (theirs?.revision === kept.revision) shown({ held: { ...kept, summary: theirs.summary }, problems: [] })
  const { problems, summary } = await deriving
  return summary === undefined ? { held: undefined, problems } : { held: { ...kept, summary }, problems: [] }
}

/** What this page kept before it was loaded again; on a page that never kept anything, what the log holds under its name. */
async function earlierEdits(host: Host, recall: Recall, revision: number): Promise<History> {
  const known = recall.read()
  const { changes, you } = await host.readLog(Math.max(1, revision - MOST_RECALLED))
  const edits = changes.filter((change) => change.revision <= revision).flatMap(keptEdit)
  if (known !== undefined) return recalled(known, edits)
  const own = new Set(changes.filter((change) => change.by === you).map((change) => change.revision))
  return { done: edits.filter((edit) => own.has(edit.revision)), undone: [] }
}

function keptEdit({ revision, why, patch, inverse, touched }: ReversibleChange): KeptEdit[] {
  if (inverse === undefined || touched === undefined) return []
  return [{ revision, what: why, forward: patch, inverse, touched }]
}

const otherEngine = (own: string, theirs: string): string | undefined =>
  own === theirs
    ? undefined
    : `This page runs engine ${own} and its host ${theirs}: figures may differ, so nothing can be kept. Reload the page.`

const overtaken = (which: 'undo' | 'redo', edit: KeptEdit, pointer: string): Problem => ({
  pointer,
  found: 'another value there since',
  expected: `the value that “${edit.what}” left; to ${which} it, change ${pointer} itself`,
})

function withRefused(
  cells: ReadonlyMap<string, RefusedCell>,
  trial: Trial,
  atFault: readonly Edit[],
  problems: readonly Problem[],
): ReadonlyMap<string, RefusedCell> {
  const next = new Map(cells)
  for (const { pointer, isBlock } of atFault) {
    if (isBlock) continue
    const problem = problems.find((p) => p.pointer === pointer)
    if (problem !== undefined) next.set(pointer, { text: cellText(at(trial.document, pointer)), said: saidOf(problem) })
  }
  return next
}

/** What keeps a block from being taken, place by place. */
const linesRefused = (atFault: readonly Edit[], problems: readonly Problem[]): string[] =>
  atFault
    .filter((edit) => edit.isBlock)
    .flatMap((edit) => problems.filter((p) => p.pointer.startsWith(`${edit.pointer}/`)))
    .map((problem) => `${problem.pointer}: ${saidOf(problem)}`)

const saidOf = ({ found, expected, example }: Problem): string =>
  `Found ${found}, expected ${expected}${example === undefined ? '' : `, such as “${example}”`}.`
