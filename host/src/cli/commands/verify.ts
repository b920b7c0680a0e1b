import type { Command } from 'commander'
import { reportText } from '../../../../verification/report.ts'
import { caseFiles, verification } from '../../../../verification/verify.ts'
import { type Common, printAnswer } from '../answer.ts'
import { command } from '../command.ts'

/** `verify`: every published and derived case through the engine's public functions. */
export const verifyCommand = (): Command =>
  command('verify', 'run the verification cases and print their report')
    .argument('[beginnings...]', 'only files whose name begins so, such as "lift"')
    .action((beginnings: string[], options: Common) => {
      const wanted = caseFiles().filter(
        ({ name }) => beginnings.length === 0 || beginnings.some((b) => name.startsWith(b)),
      )
      const result = verification(wanted)
      printAnswer(
        { json: result, text: () => reportText(result), failed: result.failed > 0 || result.passed === 0 },
        options,
      )
    })
