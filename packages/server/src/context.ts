import type { Ledger } from '@forcemeat/ledger'
import type { Identity } from './access/roles.ts'
import type { BackupPlan } from './backup/schedule.ts'
import type { Log } from './http/log.ts'
import type { Integrity } from './integrity.ts'

/** What a running server stands on. */
export type AppOptions = {
  readonly ledger: Ledger
  /** What is known of the chain of the record; nothing where nobody walks it. */
  readonly integrity?: () => Integrity
  /** Folder of the built workbench; without one only the interface for programs answers. */
  readonly web?: string | undefined
  /** Kept passphrase (PHC string). Where it is set, everything but signing in and health needs a session. */
  readonly passphrase?: string | undefined
  /** True where only this machine reaches the server; host names other than its own are then refused. */
  readonly loopback?: boolean
  readonly now?: () => Date
  /** Backups by the clock. */
  readonly backups?: BackupPlan
  readonly log?: Log
}

/** Options with their defaults filled in. */
export type House = Required<Pick<AppOptions, 'now' | 'log' | 'loopback'>> & AppOptions

export type AppEnv = {
  Variables: {
    requestId: string
    /** What went wrong, for the log. */
    error?: Error
    /** Who is signed in as themselves; absent where nobody signs in, or all share one passphrase. */
    identity?: Identity
  }
}
