import { Hono } from 'hono'
import { z } from 'zod'
import type { AppEnv, House } from '../context.ts'
import { limit, readQuery } from '../http/body.ts'
import { whole } from '../http/query.ts'
import { notHere } from '../http/refusal.ts'
import { askedPaper, paperShape } from '../paper/asked.ts'
import { premixPaper } from '../paper/premix-of.ts'
import { endingOf, formats, mimeOf, readRecipeFile, writeRecipe } from '../recipe-file/formats.ts'

const as = z.enum(formats, { error: `is not a form of recipe; allowed: ${formats.join(', ')}` })
const outQuery = z.strictObject({ as, version: whole(1, 1_000_000).optional() })
const inQuery = z.strictObject({ as: as.optional() })
const premixQuery = z.strictObject({
  version: whole(1, 1_000_000).optional(),
  batches: whole(1, 1000),
  meatKg: z.coerce
    .number({ error: 'is not a number; allowed: kg of meat block in one batch' })
    .gt(0, { error: 'is not above 0; allowed: kg of meat block in one batch' })
    .max(100_000, { error: 'is too much; allowed: at most 100000 kg' }),
  ...paperShape,
})

/** Largest file of one recipe, bytes. */
const RECIPE_BYTES = 1_000_000

const fileName = (...parts: readonly (string | number)[]): string => parts.join('-').replaceAll(/[^A-Za-z0-9.-]/g, '_')

/** Recipes out to files and in from them; reading records nothing. And the sheet of a pre-mix, which belongs to no batch. */
export const recipeFileRoutes = ({ ledger }: House) => {
  const versionOf = async (recipe: string, version: number | undefined) => {
    const found = await ledger.recipe(recipe)
    if (!found) throw notHere('recipe', recipe)
    const one = found.versions.find((v) => v.version === (version ?? found.newest))
    if (!one) throw notHere('version of this recipe', String(version))
    return one
  }
  return new Hono<AppEnv>()
    .get('/api/recipes/:recipe/file', async (c) => {
      const { as: format, version } = readQuery(c, outQuery)
      const one = await versionOf(c.req.param('recipe'), version)
      return c.body(await writeRecipe(one.body, format), 200, {
        'content-type': mimeOf[format],
        'content-disposition': `attachment; filename="${fileName(one.recipe, `v${one.version}`)}.${endingOf[format]}"`,
      })
    })
    .post('/api/recipes/read', limit(RECIPE_BYTES, 'the file of a recipe'), async (c) => {
      const { as: format } = readQuery(c, inQuery)
      return c.json(await readRecipeFile(new Uint8Array(await c.req.arrayBuffer()), format))
    })
    .get('/paper/pre-mix/:file{[^/]+\\.pdf}', async (c) => {
      const { version, batches, meatKg, ...asked } = readQuery(c, premixQuery)
      const paper = askedPaper(asked)
      const one = await versionOf(c.req.param('file').slice(0, -'.pdf'.length), version)
      const pdf = await premixPaper(ledger, one, { batches, meatKg }, paper)
      return c.body(pdf, 200, {
        'content-type': 'application/pdf',
        'content-disposition': `inline; filename="${fileName('pre-mix', one.recipe, `v${one.version}`, paper.size)}.pdf"`,
      })
    })
}
