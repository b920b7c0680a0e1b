// Runs in the file that lies on a tablet without a network: keeps ticks, and gives them out as a small file.

/** @typedef {{ by: string, on: string }} Tick */

const main = /** @type {HTMLElement} */ (document.querySelector('main'))
const who = /** @type {HTMLInputElement} */ (document.getElementById('who'))
const said = /** @type {HTMLElement} */ (document.getElementById('said'))
const count = /** @type {HTMLElement} */ (document.getElementById('count'))
const text = /** @type {HTMLTextAreaElement} */ (document.getElementById('text'))
const boxes = /** @type {HTMLInputElement[]} */ ([...main.querySelectorAll('input[data-at]')])
const { project = '', revision = '', content = '', scope = '', issued = '' } = main.dataset
const PLACE = `on-site ${content} ${scope}`
const TAKE_BACK = 4000

/** @type {Record<string, Tick>} */
let ticks = {}
/** @type {Storage | undefined} */
let storage
try {
  storage = window.localStorage
  const kept = JSON.parse(storage.getItem(PLACE) ?? '{}')
  ticks = kept.ticks ?? {}
  who.value = kept.who ?? ''
} catch {
  storage = undefined
}

/** Keeps what is ticked in the page's own storage; says so once where there is none. */
function keep() {
  try {
    if (storage === undefined) throw new Error('no storage')
    storage.setItem(PLACE, JSON.stringify({ who: who.value, ticks }))
  } catch {
    say('This device keeps no ticks: they last only while this page is open. Export before you close it.')
  }
}

/** @param {string} words */
function say(words) {
  said.textContent = words
}

/** Local time with its offset from UTC, to the minute (ISO 8601). */
function now() {
  const date = new Date()
  const two = (/** @type {number} */ n) => String(Math.trunc(Math.abs(n))).padStart(2, '0')
  const east = -date.getTimezoneOffset()
  const day = `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`
  const offset = `${east < 0 ? '-' : '+'}${two(east / 60)}:${two(east % 60)}`
  return `${day}T${two(date.getHours())}:${two(date.getMinutes())}${offset}`
}

/** @param {HTMLInputElement} box */
const atOf = (box) => box.dataset.at ?? ''

function show() {
  for (const box of boxes) {
    const tick = ticks[atOf(box)]
    if (!box.disabled) box.checked = tick !== undefined
    const by = box.parentElement?.querySelector('.by')
    if (by && tick) by.textContent = `${tick.by}, ${tick.on.slice(0, 16).replace('T', ' ')}`
    else if (by && !box.disabled) by.textContent = ''
    box.parentElement?.classList.remove('asking')
  }
  for (const line of main.querySelectorAll('li.line')) {
    const own = [...line.querySelectorAll('input')]
    line.classList.toggle('whole', own.length > 0 && own.every((box) => box.checked))
  }
  const done = boxes.filter((box) => box.checked).length
  count.textContent = `${done} of ${boxes.length} ticked`
  text.value = exported()
}

function exported() {
  const says = Object.fromEntries(boxes.map((box) => [atOf(box), box.dataset.says ?? '']))
  const all = Object.entries(ticks).filter(([at]) => at in says)
  return `${JSON.stringify(
    {
      form: 'shieldwright on-site ticks',
      version: 1,
      project,
      ...(revision === '' ? {} : { revision }),
      content,
      scope,
      issued,
      exported: now(),
      ticks: all.map(([at, tick]) => ({ at, says: says[at], ...tick })),
    },
    undefined,
    1,
  )}\n`
}

/** @param {HTMLInputElement} box @returns {string | undefined} why a tick is not taken */
function refusal(box) {
  const name = who.value.trim()
  if (name === '') return 'First write who you are.'
  if (/[<>\p{Cc}]/u.test(name)) return 'A name has no < or >.'
  const work = atOf(box).replace(/\/checkedBy$/, '')
  if (work === atOf(box)) return undefined
  const by = ticks[work]?.by ?? boxes.find((b) => atOf(b) === work)?.dataset.by
  return by === name ? 'Another person than the one who did it checks it: write that name first.' : undefined
}

/** A glove brushes a box: a tick goes only when it is pressed again soon after. @param {HTMLInputElement} box */
function takeBack(box) {
  const label = box.parentElement
  if (label?.classList.contains('asking')) {
    delete ticks[atOf(box)]
    return true
  }
  label?.classList.add('asking')
  box.checked = true
  say('Press it once more to take the tick back.')
  setTimeout(() => {
    label?.classList.remove('asking')
    if (said.textContent?.startsWith('Press it')) say('')
  }, TAKE_BACK)
  return false
}

for (const box of boxes)
  box.addEventListener('change', () => {
    if (!box.checked) {
      if (!takeBack(box)) return
      say('')
    } else {
      const why = refusal(box)
      if (why !== undefined) {
        box.checked = false
        say(why)
        who.focus()
        return
      }
      ticks[atOf(box)] = { by: who.value.trim(), on: now() }
      say('')
    }
    keep()
    show()
  })

who.addEventListener('change', keep)

document.getElementById('export')?.addEventListener('click', () => {
  const link = document.createElement('a')
  link.href = URL.createObjectURL(new Blob([exported()], { type: 'application/json' }))
  link.download = `ticks-${now().slice(0, 16).replace(/[T:]/g, '-')}.json`
  link.click()
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000)
  say('')
})

document.getElementById('hide')?.addEventListener('click', (event) => {
  const hides = main.classList.toggle('hides')
  const button = /** @type {HTMLElement} */ (event.currentTarget)
  button.setAttribute('aria-pressed', String(hides))
})

for (const button of main.querySelectorAll('button.zoom'))
  button.addEventListener('click', () => {
    const sheet = button.parentElement?.nextElementSibling
    const large = sheet?.classList.toggle('large')
    button.setAttribute('aria-pressed', String(large === true))
  })

// another page of the same file in the same browser
window.addEventListener('storage', (event) => {
  if (event.key !== PLACE || event.newValue === null) return
  ticks = JSON.parse(event.newValue).ticks ?? {}
  show()
})

show()
if (storage === undefined) keep()
