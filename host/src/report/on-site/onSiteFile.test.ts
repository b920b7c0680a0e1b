import { createHash } from 'node:crypto'
import { type Stages, startDerivation } from '@shieldwright/engine'
import { expect, test } from 'vitest'
import { demoDocument } from '../../../../engine/src/demo.fixture.ts'
import { onSiteFile } from './onSiteFile.ts'

const ISSUE = { contentHash: 'b'.repeat(64), date: '2032-10-19', revision: '7', units: 'SI' } as const
const HOSTILE = `"><script>alert(1)</script><img src=x onerror='alert(1)'>`

type Document = ReturnType<typeof demoDocument>

function stagesOf(document: Document): Stages {
  const { stages, problems } = startDerivation(document).derived
  if (stages === undefined) throw new Error(JSON.stringify(problems))
  return stages
}

/** The file of a step that parts services and is lifted. */
function fileOf(stages: Stages): string {
  const step = stages.strip.steps.find((s) => s.services.length > 0 && s.lift !== undefined)?.step
  return onSiteFile(stages, { step: step ?? '' }, ISSUE) as string
}

const demo = stagesOf(demoDocument())
const plain = fileOf(demo)

test('the file names no other file and no address: there is nothing that it could ask a network for', () => {
  expect(plain).not.toMatch(/<(link|iframe|object|embed|base|form|img|audio|video|source)\b/i)
  expect(plain).not.toMatch(/\b(src|srcset|xlink:href|action|poster)=/i)
  expect([...plain.matchAll(/\bhref="([^"]*)"/g)].filter(([, to]) => !to?.startsWith('#'))).toEqual([])
  expect(plain.match(/@import|\burl\(|\bfetch\b|XMLHttpRequest|WebSocket|sendBeacon|importScripts/g)).toBeNull()
  const addresses = [...plain.matchAll(/\w+:\/\/[^\s"'<]+/g)].map(([address]) => address)
  expect([...new Set(addresses)]).toEqual(['http://www.w3.org/2000/svg'])
})

test('its policy forbids everything, but for the one script and the one style that it holds, by their content', () => {
  const policy = /Content-Security-Policy" content="([^"]*)"/.exec(plain)?.[1] ?? ''
  const hashOf = (tag: string): string => {
    const code = new RegExp(`<${tag}>([\\s\\S]*?)</${tag}>`).exec(plain)?.[1] ?? ''
    return `${tag}-src 'sha256-${createHash('sha256').update(code).digest('base64')}'`
  }
  expect(policy.split('; ')).toEqual([
    "default-src 'none'",
    hashOf('script'),
    hashOf('style'),
    "base-uri 'none'",
    "form-action 'none'",
  ])
  expect(plain.indexOf('Content-Security-Policy')).toBeLessThan(plain.indexOf('<style>'))
  expect(plain.match(/<script/g)).toHaveLength(1)
  expect(plain).not.toMatch(/\sstyle=|\son[a-z]+=/i)
})

test('names that hold markup stand in it as words', () => {
  const document = demoDocument()
  Object.assign(document.about as unknown as object, { title: HOSTILE })
  for (const service of Object.values(document.services)) Object.assign(service, { tag: HOSTILE, note: HOSTILE })
  const file = fileOf(stagesOf(document))
  expect(file.match(/<script/g)).toHaveLength(1)
  expect(file).not.toContain('<img')
  expect(file).toContain('&lt;script&gt;alert(1)')
})

test('the same project and issue give the same bytes', () => {
  expect(fileOf(demo)).toBe(plain)
})
