import { existsSync } from 'node:fs'
import { readFile, writeFile } from 'node:fs/promises'
import { once } from 'node:events'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import type { Ledger } from '@forcemeat/ledger'
import { endingOf, formats, readRecipeFile, writeRecipe } from '@forcemeat/server/recipe-file/formats'
import { defineCommand } from 'citty'
import { command, exit, Stop } from '../command.ts'
import { print, say } from '../output.ts'
import { folderArg, folderOf, withRecord } from '../record.ts'

const noRecipe = (code: string): Stop =>
  new Stop(exit.badInput, `WHAT: ${JSON.stringify(code)} is not in the record; allowed: the code of a recipe`)

function numberOf(text: string | undefined): number | undefined {
  if (text === undefined) return undefined
  if (!/^\d{1,7}$/.test(text))
    throw new Stop(exit.badInput, `--recipe-version: is ${JSON.stringify(text)}; allowed: a whole number`)
  return Number(text)
}

async function write(ledger: Ledger, code: string, version: number | undefined, format: (typeof formats)[number]) {
  const found = await ledger.recipe(code)
  if (!found) throw noRecipe(code)
  const one = found.versions.find((v) => v.version === (version ?? found.newest))
  if (!one)
    throw new Stop(
      exit.badInput,
      `--recipe-version: is ${version}; allowed: 1 to ${found.newest}, as the record has them`,
    )
  return { bytes: await writeRecipe(one.body, format), version: one.version }
}

type Import = { readonly code: string; readonly by: string; readonly note: string | undefined }

async function take(ledger: Ledger, file: string, { code, by, note }: Import): Promise<number> {
  const read = await readRecipeFile(new Uint8Array(await readFile(file)))
  const before = await ledger.recipe(code)
  const newest = before?.versions.find((v) => v.version === before.newest)
  let body: Recipe
  if (read.recipe) body = read.recipe
  else if (newest) body = { ...newest.body, ...read.parts! }
  else
    throw new Stop(
      exit.badInput,
      `FILE: holds the parts alone, and ${JSON.stringify(code)} is not in the record; allowed: a whole recipe as text, XLSX or JSON`,
    )
  const version = (before?.newest ?? 0) + 1
  await ledger.append([{ kind: 'recipe.save', by, body: { recipe: code, version, body, ...(note ? { note } : {}) } }])
  return version
}

const definition = defineCommand({
  meta: { name: 'recipe', description: 'Write a recipe to a file, or take one in from a file' },
  args: {
    action: { type: 'positional', required: true, description: 'export, import or check' },
    what: { type: 'positional', required: true, description: 'code of the recipe to write, or file to read' },
    ...folderArg,
    as: { type: 'enum', options: [...formats], default: 'text', description: 'form to write' },
    'recipe-version': { type: 'string', valueHint: 'number', description: 'version to write; the newest unless given' },
    out: { type: 'string', alias: 'o', valueHint: 'file', description: 'file to write, - for standard output' },
    code: { type: 'string', valueHint: 'code', description: 'code the recipe is recorded under' },
    by: { type: 'string', valueHint: 'person', description: 'who records it' },
    note: { type: 'string', valueHint: 'text', description: 'what changed' },
  },
  run: async ({ args }) => {
    const { action, what, as } = args
    if (action === 'check') {
      const read = await readRecipeFile(new Uint8Array(await readFile(what)))
      await print(`${what}: ${read.format}, ${read.recipe ? `the recipe ${read.recipe.name}` : 'parts of a recipe'}`)
      return exit.ok
    }
    if (action === 'export') {
      const version = numberOf(args['recipe-version'])
      const made = await withRecord(folderOf(args), (ledger) => write(ledger, what, version, as))
      if (args.out === '-') {
        if (!process.stdout.write(made.bytes)) await once(process.stdout, 'drain')
        return exit.ok
      }
      const out = args.out ?? `${what}-v${made.version}.${endingOf[as]}`
      if (existsSync(out))
        throw new Stop(
          exit.badInput,
          `--out: ${out} is there already; allowed: a file that is not, or - for standard output`,
        )
      await writeFile(out, made.bytes, { flag: 'wx' })
      say(`forcemeat: wrote ${out} (${made.bytes.byteLength} bytes)`)
      return exit.ok
    }
    if (action !== 'import')
      throw new Stop(exit.badInput, `ACTION: is ${JSON.stringify(action)}; allowed: export, import or check`)
    const { code, by, note } = args
    if (!code || !by)
      throw new Stop(
        exit.badInput,
        `--${code ? 'by' : 'code'}: is missing; an import says under which code and by whom`,
      )
    const version = await withRecord(folderOf(args), (ledger) => take(ledger, what, { code, by, note }))
    await print(`${code} version ${version}`)
    return exit.ok
  },
})

export const recipe = command(
  definition,
  `
EXAMPLES
  forcemeat recipe export smoked-ring
  forcemeat recipe export smoked-ring --as xlsx -o ring.xlsx
  forcemeat recipe check ring.xlsx
  forcemeat recipe import ring.xlsx --code smoked-ring --by ida --note "less salt"

EXIT CODES
  0  written, recorded or readable
  2  no such recipe or file, a file that is there already, or faults in what was read: one line each
  4  the record or the disk stands in the way`,
)
