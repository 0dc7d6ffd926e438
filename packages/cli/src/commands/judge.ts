import { judgeLog, type JudgeOptions } from '@forcemeat/craft/log/judge-log'
import type { Answers, Role } from '@forcemeat/craft/log/format'
import { porkSpecies } from '@forcemeat/craft/pork/schema'
import { defineCommand } from 'citty'
import { chunksOf } from '../chunks.ts'
import { command, exit, Stop } from '../command.ts'
import { verdictTable } from '../judge/table.ts'
import { coolingIn, fileThere, humidityIn } from '../judge/asked.ts'
import { PH_METER } from '@forcemeat/rulebook/batch/instrument-days'
import { modes, refuseIdle, typed } from '../judge/modes.ts'
import { numberIn, oneIn } from '../judge/options.ts'
import { judgeSlow } from '../judge/slow-command.ts'
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
  meta: {
    name: 'judge',
    description: "Judge a logger's file: a cook and chill, a fermentation, or the freezing of pork",
  },
  args: {
    file: { type: 'positional', required: true, description: 'the file as the logger wrote it; - for standard input' },
    as: { type: 'string', default: modes[0], description: `what the log is judged as: ${modes.join(', ')}` },
    species: {
      type: 'string',
      description: `what it is of: ${species.join(', ')}; meat where not given is not assumed. Freezing: ${porkSpecies.join(', ')}`,
    },
    organism: {
      type: 'string',
      default: 'salmonella',
      description: `organism of the estimate: ${organisms.join(', ')}`,
    },
    cured: {
      type: 'boolean',
      description:
        'it holds nitrite; --no-cured where it holds none. Without either the chill is judged both ways and never passes',
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
    ph: {
      type: 'string',
      valueHint: 'when=pH, …',
      description: 'pH readings of a fermentation; when: hours from the start of the log, or YYYY-MM-DD hh:mm',
    },
    'ph-file': { type: 'string', valueHint: 'file', description: 'the same as a table: a head "time" and a head "pH"' },
    'ph-meter-calibrated': {
      type: 'boolean',
      description: 'the pH meter was set in buffer on the day of the readings; not said, no pH counts',
    },
    'ph-tolerance': {
      type: 'string',
      description: `largest error of the pH meter, ± pH; ± ${PH_METER.usual} is taken where not given`,
    },
    'target-ph': { type: 'string', description: 'pH that ends the count, where lower than the published one' },
    'thickness-mm': { type: 'string', description: 'smallest dimension of the frozen piece or layer, mm' },
    place: {
      type: 'string',
      valueHint: 'places',
      description: 'whose systems decide: US, CA for a fermentation, US, EU for a freezing; several with commas',
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
    us: { type: 'boolean', description: 'print temperatures in °F and lengths in inches' },
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
    const { as: mode = modes[0] } = oneIn('as', args.as, modes)
    refuseIdle(rawArgs, mode)
    const system = args.us ? 'us' : 'metric'
    if (mode !== 'cook-and-chill') {
      if (args.file !== '-') await fileThere(args.file)
      const told = await judgeSlow({ mode, file: args.file, answers, given: args, raw: rawArgs, system })
      await print(args.json ? JSON.stringify(told.judgement, null, 2) : told.text)
      return codeOf[told.verdict]
    }
    const cooling = coolingIn(typed(rawArgs, 'cured') ? args.cured === true : undefined, args)
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
    await print(args.json ? JSON.stringify(judgement, null, 2) : verdictTable(judgement, system))
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
  forcemeat judge ripening.csv --as ferment --ph "0=5.7, 20=5.2" --ph-meter-calibrated --place US
  forcemeat judge freezer.csv --as freezing --species pork --thickness-mm 120 --core Centre

The worst probe decides. What the file does not say is asked, with the option that answers it, and nothing is judged until
then. A fermentation is counted from the air of its chamber in both published systems of degree-hours; a freezing is held
against the published schedules by the temperature at the centre, which hold for pork and not for game. A model's estimate never passes a batch: only readings against a published table do.

EXIT CODES
  0  pass: every limit that was judged is met
  1  fail: a limit is not met
  2  no such file, not a log, or an unusable option
  3  cannot tell: something is missing, and the output says what would settle it`,
)
