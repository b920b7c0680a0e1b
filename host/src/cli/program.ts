import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { Command, InvalidArgumentError } from 'commander'
import { listen } from '../server/listen.ts'
import { server } from '../server/server.ts'

const builtPage = fileURLToPath(new URL('../../../web/dist', import.meta.url))

/** The command line; each subcommand is one capability. */
export function program(): Command {
  const root = new Command('shieldwright').description(
    'One model of a stopped tunnel boring machine, every consequence derived with its working shown.',
  )
  root
    .command('serve')
    .description('start the workbench and print its address')
    .option('--port <number>', 'TCP port on 127.0.0.1; 0 takes a free one', port, 8417)
    .action(serve)
  return root
}

async function serve({ port }: { port: number }, command: Command): Promise<void> {
  if (!existsSync(builtPage)) command.error(`${builtPage}: no built page there; "npm run build" makes it`)
  const { address } = await listen(server({ page: builtPage }), port).catch((error) => command.error(refusal(error)))
  console.log(`Workbench: ${address}`)
}

function refusal(error: NodeJS.ErrnoException): string {
  if (error.code !== 'EADDRINUSE') throw error
  return '--port: another program listens there; choose another, or 0 for any free one'
}

function port(text: string): number {
  const number = Number(text)
  if (/^\d+$/.test(text) && number <= 65535) return number
  throw new InvalidArgumentError('expected a whole number from 0 to 65535, such as 8417.')
}
