import type { ArgsDef, CommandDef } from 'citty'

/** What every command's exit code means; docs/cli.md says the same. */
export const exit = {
  ok: 0,
  /** The answer is no: a limit failed, the chain does not verify. */
  no: 1,
  /** What was given cannot be used: an unknown command or option, a file that is not there, a fault in the input. */
  badInput: 2,
  /** The answer is that it cannot be told. */
  cannotTell: 3,
  /** The record or the machine stands in the way: locked, read-only, disk full, address in use. */
  trouble: 4,
  /** A fault of the program itself. */
  internal: 70,
} as const

/** A command: its face for citty, and what stands below its usage. `run` answers the exit code. */
export type Command = {
  readonly definition: CommandDef
  readonly more: string
}

/** Put a command together; its options are typed inside, and plain outside. */
export const command = <const T extends ArgsDef>(definition: CommandDef<T>, more: string): Command => ({
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion -- citty's type is not covariant in its options
  definition: definition as unknown as CommandDef,
  more,
})

/** Thrown to end a command with lines on standard error and a code. */
export class Stop extends Error {
  readonly code: number
  constructor(code: number, message: string) {
    super(message)
    this.name = 'Stop'
    this.code = code
  }
}
