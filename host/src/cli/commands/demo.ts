import type { Command } from 'commander'
import { writeDemo } from '../../project/demo.ts'
import { type Answer, type Common, printAnswer } from '../answer.ts'
import { command } from '../command.ts'

/** `demo [DIR]`: writes the invented recovery to try things on. */
export const demoCommand = (): Command =>
  command('demo', 'write the demo recovery, an invented one, into a folder')
    .argument('[dir]', 'folder', 'recovery')
    .action((folder: string, options: Common) => printAnswer(demoAnswer(folder), options))

function demoAnswer(folder: string): Answer {
  const written = writeDemo(folder)
  return 'problems' in written ? written : { json: written, text: () => `${written.files.join('\n')}\n` }
}
