import { CommanderError } from 'commander'
import { PlaceFault } from '../store/place.ts'
import { storeFault } from '../store/storeFault.ts'
import { printAnswer, usageProblem } from './answer.ts'
import { pairedWords, program } from './program.ts'

const words = process.argv.slice(2)

// A reader such as `head` may close the pipe early; what it has not read is not missed.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error
})

try {
  await program().parseAsync(pairedWords(words), { from: 'user' })
} catch (error) {
  const problem = error instanceof PlaceFault ? error.problem : storeFault(error)?.problem
  if (problem !== undefined) printAnswer({ problems: [problem] }, { json: words.includes('--json') })
  else if (!(error instanceof CommanderError)) throw error
  else if (error.exitCode !== 0) refuseUsage(error.message)
}

/** What was typed is no command: said on standard error already, and here as JSON where JSON was asked for. */
function refuseUsage(message: string): void {
  const found = message.replace(/^error: /, '')
  const expected = 'a command as "shieldwright --help" lists them'
  if (words.includes('--json')) printAnswer(usageProblem('', found, expected), { json: true })
  process.exitCode = 1
}
