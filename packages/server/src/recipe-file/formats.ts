import { InvalidInput, parseOrThrow } from '@forcemeat/craft/calculation'
import { recipeCsv, recipeFromCsv, type RecipeParts } from '@forcemeat/craft/recipe/csv'
import { recipeSchema, type Recipe } from '@forcemeat/craft/recipe/schema'
import { parseRecipe } from '@forcemeat/craft/recipe/text/parse'
import { printRecipe } from '@forcemeat/craft/recipe/text/print'
import { readWorkbook, writeWorkbook } from './workbook.ts'

/** What a recipe can be written to and read from. */
export const formats = ['text', 'csv', 'xlsx', 'json'] as const
export type Format = (typeof formats)[number]

export const mimeOf: Readonly<Record<Format, string>> = {
  text: 'text/plain; charset=utf-8',
  csv: 'text/csv; charset=utf-8',
  xlsx: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
  json: 'application/json',
}
export const endingOf: Readonly<Record<Format, string>> = { text: 'recipe.txt', csv: 'csv', xlsx: 'xlsx', json: 'json' }

/** A recipe as the bytes of a file. */
export async function writeRecipe(recipe: Recipe, format: Format): Promise<Uint8Array<ArrayBuffer>> {
  const bytes = (text: string) => new TextEncoder().encode(text)
  switch (format) {
    case 'text':
      return bytes(printRecipe(recipe))
    case 'csv':
      return bytes(recipeCsv({ recipe }).csv)
    case 'json':
      return bytes(`${JSON.stringify(recipe, null, 2)}\n`)
    case 'xlsx':
      return writeWorkbook(recipe)
  }
}

const refuse = (message: string): never => {
  throw new InvalidInput([{ path: '(file)', message }])
}

function textOf(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return refuse('is not text in UTF-8; allowed: a text file in UTF-8')
  }
}

/** The form a file is in, by how it begins. */
export function formatOf(bytes: Uint8Array): Format {
  if (bytes[0] === 0x50 && bytes[1] === 0x4b) return 'xlsx'
  const start = new TextDecoder().decode(bytes.subarray(0, 400)).trimStart()
  if (start.startsWith('{')) return 'json'
  return /^part\s*,/i.test(start) ? 'csv' : 'text'
}

export type ReadRecipe = { readonly format: Format; readonly recipe?: Recipe; readonly parts?: RecipeParts }

function json(text: string): unknown {
  try {
    return JSON.parse(text) as unknown
  } catch {
    return refuse('is not JSON; allowed: one JSON value')
  }
}

/** A recipe from the bytes of a file; a table of comma-separated text holds its parts alone. @throws InvalidInput with each fault's place */
export async function readRecipeFile(bytes: Uint8Array, format: Format = formatOf(bytes)): Promise<ReadRecipe> {
  if (bytes.length === 0) refuse('is empty; allowed: a recipe as text, CSV, XLSX or JSON')
  switch (format) {
    case 'text':
      return { format, recipe: parseRecipe(textOf(bytes)) }
    case 'csv':
      return { format, parts: recipeFromCsv({ csv: textOf(bytes) }) }
    case 'json':
      return { format, recipe: parseOrThrow(recipeSchema, json(textOf(bytes))) }
    case 'xlsx':
      return { format, recipe: await readWorkbook(bytes) }
  }
}
