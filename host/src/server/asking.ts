import { AsyncLocalStorage } from 'node:async_hooks'
import type { Account } from '../accounts/accounts.ts'

/** Who asks: an account, and whether the session still stands, for an answer that goes on for hours. */
export interface Asking extends Account {
  isSignedIn(): Promise<boolean>
}

/** Who asks, for as long as their request is answered; nobody on a server without accounts. */
export const asking = new AsyncLocalStorage<Asking>()
