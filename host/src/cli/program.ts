import { Command } from 'commander'
import { accountCommand } from './commands/account.ts'
import { backupCommand, restoreCommand } from './commands/backup.ts'
import { bookCommand } from './commands/book.ts'
import { catalogueCommand } from './commands/catalogue.ts'
import { checkCommand } from './commands/check.ts'
import { demoCommand } from './commands/demo.ts'
import { diffCommand } from './commands/diff.ts'
import { exportCommand } from './commands/export.ts'
import { groundCommand } from './commands/ground.ts'
import { baselineCommand, compareCommand, logCommand, undoCommand } from './commands/history.ts'
import { importCommand } from './commands/import.ts'
import { liftCommand } from './commands/lift.ts'
import { massCommand } from './commands/mass.ts'
import { programmeCommand } from './commands/programme.ts'
import { rcpspCommand } from './commands/rcpsp.ts'
import { reportCommand } from './commands/report.ts'
import { riskCommand } from './commands/risk.ts'
import { scenariosCommand } from './commands/scenarios.ts'
import { schemaCommand } from './commands/schema.ts'
import { serveCommand } from './commands/serve.ts'
import { signCommand } from './commands/sign.ts'
import { stripCommand } from './commands/strip.ts'
import { ticksCommand } from './commands/ticks.ts'
import { verifyCommand } from './commands/verify.ts'
import { whatifCommand } from './commands/whatif.ts'
import { workCommand } from './commands/work.ts'

const commands = [
  demoCommand,
  checkCommand,
  catalogueCommand,
  massCommand,
  stripCommand,
  liftCommand,
  groundCommand,
  programmeCommand,
  riskCommand,
  rcpspCommand,
  whatifCommand,
  scenariosCommand,
  diffCommand,
  schemaCommand,
  verifyCommand,
  reportCommand,
  bookCommand,
  exportCommand,
  importCommand,
  ticksCommand,
  serveCommand,
  workCommand,
  signCommand,
  logCommand,
  undoCommand,
  baselineCommand,
  compareCommand,
  backupCommand,
  restoreCommand,
  accountCommand,
]

const afterHelp = `
Exit codes: 0 done, no check fails · 2 a check fails, or an order is not feasible · 3 with --strict: some are open
            1 bad input or usage, nothing written

The tool informs competent people and replaces none of them: local codes, the manufacturer's instructions and licensed
engineers govern.`

/** The command line; each subcommand is one capability. */
export function program(): Command {
  const root = new Command('shieldwright')
    .description('One model of a stopped tunnel boring machine, every consequence derived with its working shown.')
    .addHelpText('after', afterHelp)
    .exitOverride()
  for (const command of commands) root.addCommand(command().copyInheritedSettings(root))
  return root
}

/**
 * Words of the command line with each `--set POINTER VALUE` in the form that keeps a value beginning with a minus:
 * `--set=POINTER --set=VALUE`.
 */
export function pairedWords(words: readonly string[]): string[] {
  const paired: string[] = []
  for (let i = 0; i < words.length; i++) {
    const word = words[i] as string
    if (word !== '--set') paired.push(word)
    else for (let taken = 0; taken < 2 && isValue(words[i + 1]); taken++) paired.push(`--set=${words[++i]}`)
  }
  return paired
}

const isValue = (word: string | undefined): boolean => word !== undefined && !word.startsWith('--')
