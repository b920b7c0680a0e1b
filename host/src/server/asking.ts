import { AsyncLocalStorage } from 'node:async_hooks'
import type { Account } from '../accounts/accounts.ts'

/** Who asks, for as long as their request is answered; nobody on a server without accounts. */
export const asking = new AsyncLocalStorage<Account>()
