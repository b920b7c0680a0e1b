import { program } from './program.ts'

await program().parseAsync()
