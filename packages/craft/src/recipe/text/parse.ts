import { InvalidInput, parseOrThrow, type Fault } from '../../calculation.ts'
import { recipeSchema, type Recipe } from '../schema.ts'
import {
  casingLine,
  cookLine,
  dryLine,
  dryStageLine,
  fermentLine,
  fermentStageLine,
  limitLine,
  nitriteLine,
  partLine,
  stageLine,
  type Take,
} from './line.ts'
import { FORMAT, unquoted, VERSION } from './words.ts'

type Draft = Record<string, unknown>
type Reads = (rest: string, draft: Draft, take: Take) => void

const push = (draft: Draft, key: string, value: unknown): void => {
  if (value !== undefined) draft[key] = [...((draft[key] as unknown[] | undefined) ?? []), value]
}
/** A step of the process and its stages come on lines of their own, in either order. */
const into = (draft: Draft, key: string, fields: Draft): void => {
  draft[key] = { ...fields, ...(draft[key] as Draft | undefined) }
}
const stageOf = (draft: Draft, key: string, stage: Draft): void => {
  const step = (draft[key] ?? {}) as Draft
  push(step, 'stages', stage)
  draft[key] = step
}
const textOf = (rest: string, take: Take): string | undefined => {
  const value = unquoted(rest)
  return value ?? take.fault('has quotes that do not close; allowed: a text, or one in JSON quotes')
}
const yesNo = (rest: string, take: Take): boolean | undefined =>
  rest === 'yes' || rest === 'no' ? rest === 'yes' : take.fault(`is ${JSON.stringify(rest)}; allowed: yes or no`)

/** Keys of which a recipe has one. */
const once: Readonly<Record<string, Reads>> = {
  name: (rest, d, t) => (d['name'] = textOf(rest, t)),
  kind: (rest, d) => (d['kind'] = rest),
  smoked: (rest, d, t) => (d['smoked'] = yesNo(rest, t)),
  'ready to eat': (rest, d, t) => (d['readyToEat'] = yesNo(rest, t)),
  route: (rest, d) => (d['route'] = rest),
  nitrite: (rest, d, t) => (d['nitriteTarget'] = nitriteLine(rest, t)),
  casing: (rest, d, t) => (d['casing'] = casingLine(rest, t)),
  cook: (rest, d, t) => into(d, 'cook', cookLine(rest, t)),
  ferment: (rest, d, t) => into(d, 'ferment', fermentLine(rest, t)),
  dry: (rest, d, t) => into(d, 'dry', dryLine(rest, t)),
  note: (rest, d, t) => (d['note'] = textOf(rest, t)),
}

/** Keys of which a recipe may have many, in their order. */
const many: Readonly<Record<string, Reads>> = {
  standard: (rest, d, t) => push(d, 'standards', textOf(rest, t)),
  meat: (rest, d, t) => push(d, 'meat', partLine(rest, t, true)),
  addition: (rest, d, t) => push(d, 'additions', partLine(rest, t, false)),
  limit: (rest, d, t) => push(d, 'limits', limitLine(rest, t)),
  step: (rest, d, t) => push(d, 'steps', textOf(rest, t)),
  stage: (rest, d, t) => stageOf(d, 'cook', stageLine(rest, t)),
  'ferment stage': (rest, d, t) => stageOf(d, 'ferment', fermentStageLine(rest, t)),
  'dry stage': (rest, d, t) => stageOf(d, 'dry', dryStageLine(rest, t)),
}

const allKeys = [...Object.keys(once), ...Object.keys(many)]

/** Lines of `key: value` as a recipe. @throws InvalidInput naming each line that cannot be read, then each field the recipe refuses */
export function recipeOfLines(lines: readonly { readonly at: string; readonly text: string }[]): Recipe {
  const faults: Fault[] = []
  const draft: Draft = { additions: [] }
  const seen = new Set<string>()
  for (const { at, text } of lines) {
    const fault = (message: string): undefined => {
      faults.push({ path: at, message })
    }
    const [, key = '', rest = ''] = /^([a-z -]+?)\s*:\s*(.*)$/i.exec(text.trim()) ?? []
    const name = key.toLowerCase()
    const reads = Object.hasOwn(once, name) ? once[name] : Object.hasOwn(many, name) ? many[name] : undefined
    if (!reads)
      fault(`starts ${JSON.stringify(text.slice(0, 40))}; allowed: a key of ${allKeys.join(', ')}, then a colon`)
    else if (Object.hasOwn(once, name) && seen.has(name)) fault(`says ${name} a second time; allowed: once`)
    else reads(rest, draft, { fault })
    seen.add(name)
  }
  if (faults.length > 0) throw new InvalidInput(faults)
  return parseOrThrow(
    recipeSchema,
    Object.fromEntries(Object.entries(draft).filter(([, value]) => value !== undefined)),
  )
}

/** A recipe from the project's own text format. @throws InvalidInput naming each line that cannot be read */
export function parseRecipe(text: string): Recipe {
  const lines = text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\n|\r/)
    .map((line, i) => ({ at: `line ${i + 1}`, text: line }))
    .filter((l) => l.text.trim() !== '' && !l.text.trimStart().startsWith('#'))
  const [first, ...rest] = lines
  const version = /^forcemeat-recipe\s*:\s*(\d+)\s*$/.exec(first?.text.trim() ?? '')?.[1]
  if (version === undefined || Number(version) !== VERSION)
    throw new InvalidInput([
      {
        path: first?.at ?? 'line 1',
        message: `is ${JSON.stringify((first?.text ?? '').slice(0, 60))}; allowed: a first line ${FORMAT}: ${VERSION}`,
      },
    ])
  return recipeOfLines(rest)
}
