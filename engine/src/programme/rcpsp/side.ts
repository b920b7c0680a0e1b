/** What one side of a solve tells the other at a mark. */
export interface News {
  /** Least value of the goal known, and the start of each job or activity there; none: Infinity, and empty. */
  value: number
  starts: readonly number[]
  /** Nothing less is possible. */
  bound: number
  /** Nothing is left to look for. */
  closed: boolean
  /** Work of this side so far. */
  schedules: number
  conflicts: number
  /** Short lessons learnt since the last mark, as literals of a model that both sides have; none where they have not. */
  lessons?: readonly (readonly number[])[]
}

/** One of two that solve together: it goes on for some effort, and takes in what the other knows. */
export interface Side {
  go: (effort: number) => News
  tell: (news: News) => News
}

/** A side that may work in another thread: what is begun is waited for at the next mark. */
export interface Far {
  begin: (effort: number, news: News) => void
  end: () => News
}

/** A side in the same thread: it does at the mark what it would have done meanwhile. */
export function near(side: Side): Far {
  let due = 0
  return {
    begin: (effort, news) => {
      side.tell(news)
      due = effort
    },
    end: () => side.go(due),
  }
}

/** What two sides came to. */
export interface Together extends News {
  ended: 'bound reached' | 'effort spent' | 'stopped'
}

export interface TogetherOptions {
  /** Of each side. */
  effort: number
  shouldContinue?: (() => boolean) | undefined
  onProgress?: ((done: number, of: number) => void) | undefined
}

const FIRST_MARK = 100
const LAST_MARK = 2000

/**
 * Two sides solve one problem: they work apart from mark to mark and exchange what they know at each, at effort that is fixed
 * beforehand. So the answer hangs on the effort alone, not on which thread was faster; only stopping it hangs on the clock.
 */
export function together(own: Side, far: Far, { effort, shouldContinue, onProgress }: TogetherOptions): Together {
  let mine = own.go(0)
  let theirs: News | undefined
  let [spent, mark] = [0, FIRST_MARK]
  while (spent < effort && !isSettled(mine) && shouldContinue?.() !== false) {
    const slice = Math.min(mark, effort - spent)
    far.begin(slice, mine)
    own.go(slice)
    theirs = far.end()
    mine = own.tell(theirs)
    spent += slice
    mark = Math.min(LAST_MARK, 2 * mark)
    onProgress?.(spent, effort)
    if (theirs.closed) break
  }
  const ended = isSettled(mine) || theirs?.closed ? 'bound reached' : spent < effort ? 'stopped' : 'effort spent'
  return { ...mine, schedules: theirs?.schedules ?? 0, ended }
}

const isSettled = ({ closed, value, bound }: News): boolean => closed || value <= bound
