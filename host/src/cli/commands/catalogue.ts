import { type CatalogueEntry, catalogue } from '@shieldwright/engine'
import type { Command } from 'commander'
import { type Answer, type Common, printAnswer } from '../answer.ts'
import { command } from '../command.ts'
import { table } from '../table.ts'

/** `catalogue`: every check the tool knows, and whether it is computed. */
export const catalogueCommand = (): Command =>
  command('catalogue', 'every check the tool knows, and whether it is computed').action(async (options: Common) =>
    printAnswer(await catalogueAnswer(), options),
  )

export async function catalogueAnswer(): Promise<Answer> {
  // The fixtures are run now: a check counts as computed because it passes, fails and is open, not because a list says so.
  const { provenKinds } = await import('@shieldwright/engine/catalogue.fixture.ts')
  const checks = catalogue(await provenKinds())
  return { json: { checks }, text: () => catalogueText(checks) }
}

function catalogueText(checks: readonly CatalogueEntry[]): string {
  const columns = [
    { title: 'state' },
    { title: 'stage' },
    { title: 'no.' },
    { title: 'check' },
    { title: 'basis' },
    { title: 'decides' },
  ]
  const rows = checks.map((c) => [c.state, c.stage, c.practice.join(' '), c.title, c.basis, c.decidedBy])
  const computed = new Set(checks.filter((c) => c.state === 'computed').flatMap((c) => c.practice))
  const all = new Set(checks.flatMap((c) => c.practice))
  return `${table(columns, rows)}\n${computed.size} of ${all.size} checks of practice are computed\n`
}
