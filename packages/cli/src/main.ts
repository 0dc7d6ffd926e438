import { parseArgs, renderUsage, type ArgsDef } from 'citty'
import { Stop, exit, type Command } from './command.ts'
import { commands } from './commands.ts'
import { endQuietlyWhenUnread, print, say } from './output.ts'

const overview = (): string => {
  const width = Math.max(...Object.keys(commands).map((n) => n.length))
  return `forcemeat: the sausage maker's bench, on the command line

USAGE  forcemeat <command> [options]

COMMANDS
${Object.entries(commands)
  .map(([name, { summary }]) => `  ${name.padEnd(width)}  ${summary}`)
  .join('\n')}

  forcemeat <command> --help  says what a command takes, with examples
  forcemeat --version         prints the version

EXIT CODES
  0  done; the answer is yes     3  cannot tell, and the output says what would settle it
  1  the answer is no            4  the record or the machine stands in the way
  2  unusable input or command   70 a fault of the program itself

The record lies in the folder ./record unless --folder or FORCEMEAT_RECORD names another.
The program informs; the maker, the law of the place and a qualified person decide.
`
}

// oxlint-disable-next-line no-control-regex -- colour codes are control characters
const plain = (text: string): string => text.replaceAll(/\u001B\[\d+m/g, '')

const plainUsage = async (command: Command): Promise<string> => {
  const usage = await renderUsage(command.definition, { meta: { name: 'forcemeat' } })
  return `${(process.stdout.isTTY ? usage : plain(usage)).trimEnd()}\n\n${command.more.trim()}\n`
}

const kebab = (name: string): string => name.replaceAll(/[A-Z]/g, (c) => `-${c.toLowerCase()}`)

/** Options that the command does not have, as typed, and words it has no place for. */
function unknownOf(raw: readonly string[], args: ArgsDef): string[] {
  const known = new Set<string>(['help', 'h'])
  const takesValue = new Set<string>()
  let places = 0
  for (const [name, def] of Object.entries(args)) {
    if (def.type === 'positional') places += 1
    const names = [name, kebab(name), ...[('alias' in def && def.alias) || []].flat()]
    for (const n of names) {
      known.add(n)
      if (def.type === 'string' || def.type === 'enum') takesValue.add(n)
    }
  }
  const unknown: string[] = []
  let words = 0
  for (let i = 0; i < raw.length; i += 1) {
    const arg = raw[i]!
    if (arg === '--') break
    if (!arg.startsWith('-') || arg === '-') {
      words += 1
      if (words > places) unknown.push(arg)
      continue
    }
    const name = arg.replace(/^--?/, '').replace(/=.*$/s, '')
    if (!known.has(name) && !known.has(name.replace(/^no-/, ''))) unknown.push(arg)
    else if (takesValue.has(name) && !arg.includes('=')) {
      if (raw[i + 1] === undefined) throw new Stop(exit.badInput, `${arg}: has no value after it; see --help`)
      i += 1
    }
  }
  return unknown
}

async function runCommand(name: string, raw: string[]): Promise<number> {
  const listed = Object.hasOwn(commands, name) ? commands[name] : undefined
  if (!listed)
    throw new Stop(
      exit.badInput,
      `forcemeat: there is no command "${name}"; allowed: ${Object.keys(commands).join(', ')}`,
    )
  const command = await listed.load()
  const { definition } = command
  if (raw.includes('--help') || raw.includes('-h')) {
    await print(await plainUsage(command))
    return exit.ok
  }
  const args = (definition.args ?? {}) as ArgsDef
  const unknown = unknownOf(raw, args)
  if (unknown.length > 0)
    throw new Stop(
      exit.badInput,
      unknown
        .map((u) => `${u}: is not an option or argument of "forcemeat ${name}"; see forcemeat ${name} --help`)
        .join('\n'),
    )
  const code: unknown = await definition.run!({ rawArgs: raw, args: parseArgs(raw, args), cmd: definition })
  return typeof code === 'number' ? code : exit.ok
}

async function main(argv: string[]): Promise<number> {
  const [first, ...rest] = argv
  if (first === '--version' || first === '-v') {
    const about = (await import('../package.json', { with: { type: 'json' } })).default
    await print(about.version)
    return exit.ok
  }
  if (first === 'help' && rest[0] !== undefined) return runCommand(rest[0], ['--help'])
  if (first === '--help' || first === '-h' || first === 'help') {
    await print(overview())
    return exit.ok
  }
  if (first === undefined) {
    say(overview().trimEnd())
    return exit.badInput
  }
  return runCommand(first, rest)
}

/** Which code an error that a command let through ends with, and what is said of it. */
function ended(error: unknown): { code: number; message: string } {
  if (error instanceof Stop) return { code: error.code, message: error.message }
  if (!(error instanceof Error)) return { code: exit.internal, message: `forcemeat: ${String(error)}` }
  if (error.name === 'InvalidInput') return { code: exit.badInput, message: error.message }
  if (error.name === 'CLIError')
    return { code: exit.badInput, message: `forcemeat: ${plain(error.message)} See --help.` }
  if (error.name === 'RecordError') {
    const asked = ['not-found', 'not-empty', 'would-lose'].includes((error as { problem?: string }).problem ?? '')
    return { code: asked ? exit.badInput : exit.trouble, message: `forcemeat: ${error.message}` }
  }
  const code = (error as NodeJS.ErrnoException).code
  if (code !== undefined && /^E[A-Z]+$/.test(code)) {
    const given = code === 'ENOENT' || code === 'EISDIR' || code === 'ENOTDIR'
    return { code: given ? exit.badInput : exit.trouble, message: `forcemeat: ${error.message}` }
  }
  return {
    code: exit.internal,
    message: `forcemeat: a fault of the program, please report it\n${error.stack ?? error.message}`,
  }
}

endQuietlyWhenUnread()
try {
  process.exitCode = await main(process.argv.slice(2))
} catch (error) {
  const { code, message } = ended(error)
  say(message)
  process.exitCode = code
}
