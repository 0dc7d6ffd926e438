import { judgeLog, type JudgeOptions } from '@forcemeat/craft/log/judge-log'
import type { Answers, Role } from '@forcemeat/craft/log/format'
import { defineCommand } from 'citty'
import { chunksOf } from '../chunks.ts'
import { command, exit, Stop } from '../command.ts'
import { verdictTable } from '../judge/table.ts'
import { coolingIn, fileThere, humidityIn } from '../judge/asked.ts'
import { numberIn, oneIn } from '../judge/options.ts'
import { print, progress } from '../output.ts'

const codeOf = { pass: exit.ok, fail: exit.no, 'cannot-tell': exit.cannotTell } as const

const species = ['meat', 'chicken', 'turkey', 'other-poultry'] as const
const organisms = ['salmonella', 'listeria', 'e-coli-o157'] as const

/** Columns named by a person, with their role. */
function rolesIn(core: string | undefined, house: string | undefined): Pick<Answers, 'roles'> {
  const named = (list: string | undefined, role: Role): [string, Role][] =>
    (list ?? '')
      .split(';')
      .map((c) => c.trim())
      .filter(Boolean)
      .map((c) => [c, role])
  const roles = [...named(core, 'core'), ...named(house, 'house')]
  return roles.length > 0 ? { roles: Object.fromEntries(roles) } : {}
}

const definition = defineCommand({
  meta: { name: 'judge', description: "Judge a logger's file against cooking and chilling rules" },
  args: {
    file: { type: 'positional', required: true, description: 'the file as the logger wrote it; - for standard input' },
    species: {
      type: 'string',
      description: `what it is of: ${species.join(', ')}; meat where not given is not assumed`,
    },
    organism: {
      type: 'string',
      default: 'salmonella',
      description: `organism of the estimate: ${organisms.join(', ')}`,
    },
    cured: {
      type: 'boolean',
      description: 'it holds nitrite; --no-cured where it holds none. Without either, chilling is not judged',
    },
    'cook-only': { type: 'boolean', description: 'the file holds the cook only; leave the chill out' },
    'nitrite-ppm': { type: 'string', description: 'ingoing nitrite, mg per kg' },
    'erythorbate-ppm': {
      type: 'string',
      description: 'ingoing erythorbate or ascorbate, mg per kg: the slow chill of a cured product asks for it',
    },
    'salt-pct': { type: 'string', description: 'salt of the product, %' },
    'water-pct': { type: 'string', description: 'water of the product, %' },
    casing: {
      type: 'boolean',
      description: 'cooked in a casing that holds moisture (natural, collagen, fibrous, plastic): no humidity is asked',
    },
    'humidity-option': {
      type: 'string',
      valueHint: '1-4',
      description: 'humidity option followed: 1 steam, 2 sealed oven, 3 90 % for a part, 4 90 % throughout',
    },
    'humid-minutes': { type: 'string', description: 'minutes for which that humidity was held' },
    'cook-minutes': { type: 'string', description: 'minutes the cook took, for the share that must be humid' },
    'accept-falls': {
      type: 'boolean',
      description: 'sudden falls and rises are the core itself: pieces thinner than 16 mm',
    },
    'tolerance-c': { type: 'string', description: 'largest error of the thermometer, ± °C' },
    'check-overdue': { type: 'boolean', description: "the thermometer's check is overdue: nothing then passes" },
    'chill-start': {
      type: 'string',
      valueHint: 'minute',
      description: 'minute at which the chill began; read off the curve unless given',
    },
    core: { type: 'string', valueHint: 'columns', description: 'columns that are core probes, with ; between them' },
    house: { type: 'string', valueHint: 'columns', description: 'columns that are the house' },
    unit: { type: 'string', description: 'C or F, where the file does not say' },
    'date-order': { type: 'string', description: 'ymd, dmy or mdy, where the file leaves it open' },
    'time-unit': { type: 'string', description: 'seconds, minutes, hours, hh:mm or mm:ss, for plain numbers' },
    decimal: { type: 'string', description: 'decimal mark: . or ,' },
    delimiter: { type: 'string', description: 'character between columns' },
    'clock-change': { type: 'string', description: 'shift or as-read, where the clock jumps by an hour' },
    json: { type: 'boolean', description: 'print everything found as JSON' },
  },
  run: async ({ args, rawArgs }) => {
    const answers: Answers = {
      ...rolesIn(args.core, args.house),
      ...oneIn('unit', args.unit, ['C', 'F'] as const),
      ...oneIn('dateOrder', args['date-order'], ['ymd', 'dmy', 'mdy'] as const),
      ...oneIn('timeUnit', args['time-unit'], ['seconds', 'minutes', 'hours', 'hh:mm', 'mm:ss'] as const),
      ...oneIn('decimal', args.decimal, ['.', ','] as const),
      ...oneIn('clockChange', args['clock-change'], ['shift', 'as-read'] as const),
      ...(args.delimiter === undefined ? {} : { delimiter: args.delimiter === '\\t' ? '\t' : args.delimiter }),
    }
    const said = rawArgs.some((a) => /^--(no-)?cured(=|$)/.test(a))
    const cooling = coolingIn(said ? args.cured === true : undefined, args)
    const humidity = humidityIn(args)
    const options: JudgeOptions = {
      answers,
      ...oneIn('organism', args.organism, organisms),
      ...(args.species === undefined ? {} : { product: oneIn('species', args.species, species) }),
      ...(cooling ? { cooling } : {}),
      ...(humidity ? { humidity } : {}),
      ...numberIn('toleranceC', args['tolerance-c'], 0, 20),
      ...numberIn('chillStartMinute', args['chill-start'], 0, 10_000_000),
      ...(args['check-overdue'] ? { checkOverdue: true } : {}),
      ...(args['accept-falls'] ? { acceptFalls: true } : {}),
      ...(args['cook-only'] ? { cookOnly: true } : {}),
    }
    const fromStdin = args.file === '-'
    if (!fromStdin) await fileThere(args.file)
    const read = progress('rows read')
    const chunks: AsyncIterable<Uint8Array> = fromStdin ? process.stdin : chunksOf(args.file)
    const judgement = await judgeLog(chunks, { ...options, onProgress: (rows) => read(rows) })
    if (judgement.format === undefined && judgement.questions.every((q) => q.about === 'layout'))
      throw new Stop(
        exit.badInput,
        `FILE: ${args.file} cannot be read as a logger's file; allowed: a table of one row a reading, a time and then temperatures`,
      )
    await print(args.json ? JSON.stringify(judgement, null, 2) : verdictTable(judgement))
    return codeOf[judgement.verdict]
  },
})

export const judge = command(
  definition,
  `
EXAMPLES
  forcemeat judge smokehouse.csv --cured --nitrite-ppm 150 --species meat --casing
  forcemeat judge oven.csv --no-cured --species chicken --unit F --core "Probe 1;Probe 2"
  forcemeat judge log.csv --json > verdict.json

The worst probe decides. What the file does not say is asked, with the option that answers it, and nothing is judged until
then. A model's estimate never passes a batch: only readings against a published table do.

EXIT CODES
  0  pass: every limit that was judged is met
  1  fail: a limit is not met
  2  no such file, not a log, or an unusable option
  3  cannot tell: something is missing, and the output says what would settle it`,
)
