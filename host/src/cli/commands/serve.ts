import type { Command } from 'commander'
import { type Answer, type Common, printAnswer } from '../answer.ts'
import { command, wholeNumber } from '../command.ts'

interface Options extends Common {
  empty?: boolean
  port: number
  data: string
  host?: string
  cert?: string
  key?: string
  name?: readonly string[]
}

/** `serve [FILE]`: imports FILE into the store and starts the workbench. */
export const serveCommand = (): Command =>
  command('serve', 'start the workbench on the stored project, and print its address')
    .argument('[file]', 'project file to import first; without one an empty store begins with the demo')
    .option('--empty', 'begin an empty store with an empty project, which the page then leads to its first lift')
    .option('--port <number>', 'TCP port on 127.0.0.1; 0 takes a free one', wholeNumber(0, 65535, 8417), 8417)
    .option('--data <dir>', 'folder that keeps the project', 'data')
    .option('--host <address>', 'address to listen on beyond this machine; needs accounts and a certificate')
    .option('--cert <file>', 'certificate chain, PEM')
    .option('--key <file>', 'private key of the certificate, PEM')
    .option('--name <names...>', 'names under which it is reached, as the certificate says')
    .action(async (file: string | undefined, options: Options) => printAnswer(await served(file, options), options))

async function served(
  file: string | undefined,
  { port, data, empty = false, host, cert, key, name }: Options,
): Promise<Answer> {
  // Server and store are read in here only: no other command needs them.
  const { openWorkbench } = await import('../../server/workbench.ts')
  const opened = await openWorkbench({ file, empty, port, data, host, cert, key, names: name })
  return 'problems' in opened ? opened : { json: opened, text: () => `Workbench: ${opened.address}\n` }
}
