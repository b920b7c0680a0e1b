import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import type { Stages } from '@shieldwright/engine'
import {
  type OnSite,
  type OnSiteLine,
  type OnSiteList,
  type OnSiteScope,
  type OnSiteTick,
  onSite,
} from '@shieldwright/engine/report/on-site/onSite.ts'
import { svgOf } from '@shieldwright/engine/report/svg.ts'
import type { Issue } from '../liftSheet.ts'

export type { OnSiteScope }

const beside = (name: string): string => readFileSync(new URL(name, import.meta.url), 'utf8')

/**
 * Lists and sheets as one file that asks for nothing: it opens without a network, and a policy in it forbids every request, every
 * other script and every other style. The same stages and issue give the same text.
 *
 * @returns undefined where there is no such lift or step
 */
export function onSiteFile(stages: Stages, scope: OnSiteScope, issue: Issue): string | undefined {
  const file = onSite(stages, scope, issue)
  return file === undefined ? undefined : pageOf(file)
}

function pageOf(file: OnSite): string {
  const [script, style] = [beside('./ticks.js'), beside('./look.css')]
  const policy = [
    "default-src 'none'",
    `script-src '${hashOf(script)}'`,
    `style-src '${hashOf(style)}'`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ')
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${text(`${file.project}: ${file.scope}`)}</title>
<style>${style}</style>
</head>
<body>
${headerOf(file)}
${mainOf(file)}
<script>${script}</script>
</body>
</html>
`
}

const hashOf = (code: string): string => `sha256-${createHash('sha256').update(code).digest('base64')}`

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

/** Text that stands in the page or in an attribute as it is. */
const text = (words: string): string => words.replace(/[&<>"']/g, (c) => ESCAPES[c] as string)

const headerOf = ({ scope }: OnSite): string => `<header>
<h1>On site: ${text(scope)}</h1>
<label for="who">Who ticks <input id="who" type="text" maxlength="200" autocomplete="off"></label>
<span id="count"></span>
<button type="button" id="hide" aria-pressed="false">Hide what is done</button>
<button type="button" id="export" class="main">Export ticks</button>
<p id="said" role="alert"></p>
</header>`

function mainOf(file: OnSite): string {
  const { project, revision, contentHash, scope, date, lists, sheets, notice, deferral } = file
  const attributes = { project, revision: revision ?? '', content: contentHash, scope, issued: date }
  const data = Object.entries(attributes).map(([name, value]) => ` data-${name}="${text(value)}"`)
  return `<main${data.join('')}>
<p>${text(project)} · ${revision === undefined ? 'revision not stated' : `revision ${text(revision)}`}, ${text(date)} · content ${contentHash.slice(0, 12)}</p>
<p class="small">Made for that revision: what was changed since is not in it. ${text(notice)}</p>
${lists.length === 0 ? '<p>Nothing is to be done here.</p>' : navigationOf(file)}
${lists.map(listOf).join('\n')}
${sheets.map(sheetsOf).join('\n')}
<h2 id="give-back">Give the ticks back</h2>
<p>Export gives a small file. Where this device cannot save one, copy this text into a file of that kind.</p>
<label for="text" class="small">Ticks as text</label>
<textarea id="text" readonly></textarea>
<p class="small">${text(deferral)}</p>
</main>`
}

function navigationOf({ lists, sheets }: OnSite): string {
  const places = [
    ...lists.map(({ id, title }) => ({ id, words: title })),
    ...sheets.map(({ lift }) => ({ id: `sheet-${lift}`, words: `Sheet of ${lift}` })),
    { id: 'give-back', words: 'Give the ticks back' },
  ]
  const items = places.map(({ id, words }) => `<li><a href="#${text(id)}">${text(words)}</a></li>`)
  return `<nav aria-label="Lists and sheets"><ul>${items.join('')}</ul></nav>`
}

const listOf = ({ id, title, notes, lines }: OnSiteList): string => `<section aria-labelledby="${text(id)}">
<h2 id="${text(id)}">${text(title)}</h2>
${notes.map((note) => `<p>${text(note)}</p>`).join('')}
<ol>
${lines.map(lineOf).join('\n')}
</ol>
</section>`

const lineOf = ({ title, facts, hold, says, ticks }: OnSiteLine): string => `<li class="line">
<div class="title"><bdi>${text(title)}</bdi></div>
<p class="facts"><bdi>${text(facts)}</bdi></p>
${hold === undefined ? '' : `<p class="hold">HOLD: ${text(hold)}</p>`}
<div class="ticks">${ticks.map((tick) => tickOf(tick, title, says)).join('')}</div>
</li>`

function tickOf({ at, words, stands }: OnSiteTick, title: string, says: string): string {
  const known = stands === undefined ? '' : ` checked disabled data-by="${text(stands.by)}"`
  const by = stands === undefined ? '' : [stands.by, stands.on].filter((s) => s !== '').join(', ')
  return `<label class="tick"><input type="checkbox" data-at="${text(at)}" data-says="${text(says)}" aria-label="${text(`${title}: ${words}`)}"${known}><span>${text(words)}<span class="by"><bdi>${text(by)}</bdi></span></span></label>`
}

const sheetsOf = ({ lift, pages }: OnSite['sheets'][number]): string => `<section>
<h2 id="sheet-${text(lift)}">Sheet of ${text(lift)}</h2>
${pages.map((page) => `<p><button type="button" class="zoom" aria-pressed="false">Larger: ${text(page.title)}</button></p>\n<div class="sheet" tabindex="0" role="group" aria-label="${text(page.title)}">${svgOf(page)}</div>`).join('\n')}
</section>`
