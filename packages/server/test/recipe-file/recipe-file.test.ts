import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { InvalidInput } from '@forcemeat/craft/calculation'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { formats, readRecipeFile, writeRecipe } from '../../src/recipe-file/formats.ts'
import { openHouse, type House } from '../support.ts'

const bin = fileURLToPath(new URL('../../../cli/bin/forcemeat.mjs', import.meta.url))

const recipe: Recipe = {
  name: '=HYPERLINK("http://x","y")',
  kind: 'cooked',
  smoked: true,
  readyToEat: true,
  route: 'comminuted',
  standards: ['us.319.140.cooked'],
  meat: [
    { material: 'pork-shoulder-trim', pct: 70, minPct: 40, maxPct: 90 },
    { material: 'pork-back-fat', pct: 30, note: '+1; "frozen"' },
  ],
  additions: [
    { material: 'salt', pct: 1.6 },
    { material: 'curing-salt-6.25-nitrite', pct: 0.22, note: '@SUM(A1:A9)' },
    { material: 'black-pepper', pct: 0.3, note: '-2+3' },
  ],
  limits: [{ of: 'fat', maxPct: 28 }],
  nitriteTarget: { lowPpm: 110, highPpm: 156 },
  casing: { calibreMm: 32, linkG: 110 },
  cook: { targetCoreC: 70, lossPct: 8, stages: [{ medium: 'air', tempC: 60, minutes: 30 }] },
  ferment: {
    targetPh: 5.2,
    startPh: 5.8,
    culture: '=starter; 25 g per 100 kg',
    stages: [{ hours: 48, tempC: 22, rhPct: 92 }],
  },
  dry: {
    lossPct: 36,
    days: 35,
    targetAw: 0.9,
    targetMoistureToProtein: 1.9,
    stages: [{ days: 10, tempC: 16, rhPct: 86, airSpeedMPerS: 0.2 }],
  },
  steps: ['=1+1', 'Mix; stuff.'],
  note: 'a line\nand another',
}

let house: House
let folder: string
beforeAll(async () => {
  house = await openHouse()
  folder = mkdtempSync(join(tmpdir(), 'forcemeat-recipe-'))
  await house.ledger.append([
    { kind: 'person.add', by: 'ana', body: { person: 'ana', name: 'Ana Brook', role: 'owner' } },
    {
      kind: 'kitchen.set',
      by: 'ana',
      body: { name: 'Brackwater Smokehouse', jurisdictions: ['US'], units: 'metric', demo: true },
    },
    {
      kind: 'instrument.add',
      by: 'ana',
      body: { instrument: 'SPICE-3', type: 'scale', name: 'Spice scale', readabilityG: 0.1, checkEveryDays: 30 },
    },
    { kind: 'recipe.save', by: 'ana', body: { recipe: 'ring', version: 1, body: recipe } },
  ])
})
afterAll(async () => {
  await house.close()
  rmSync(folder, { recursive: true, force: true })
})

const bytesOf = async (path: string) => new Uint8Array(await (await house.app.request(path)).arrayBuffer())

describe('a recipe as a file', () => {
  it.each(formats.filter((f) => f !== 'csv'))('comes back whole from %s', async (format) => {
    const file = await writeRecipe(recipe, format)
    const read = await readRecipeFile(file)
    expect(read.format).toBe(format)
    expect(read.recipe).toEqual(recipe)
  })

  it('comes back from CSV with its parts', async () => {
    const { parts } = await readRecipeFile(await writeRecipe(recipe, 'csv'))
    const bare = recipe.meat.map(({ minPct: _low, maxPct: _high, ...part }) => part)
    expect(parts).toEqual({ meat: bare, additions: recipe.additions })
  })

  it('holds no formula in a workbook, whatever its texts start with', async () => {
    const file = join(folder, 'ring.xlsx')
    writeFileSync(file, await writeRecipe(recipe, 'xlsx'))
    const sheets = ['xl/worksheets/sheet1.xml', 'xl/worksheets/sheet2.xml']
    for (const sheet of sheets) {
      const xml = execFileSync('unzip', ['-p', file, sheet], { encoding: 'utf8' })
      expect(xml).not.toMatch(/<f[ >]/)
      expect(xml).toContain('<row')
    }
  })

  it.each([
    ['an empty file', new Uint8Array(), /is empty/],
    ['bytes that are no text', Uint8Array.of(0xff, 0xfe, 0x00, 0xc3, 0x28), /UTF-8|first line/],
    ['half an archive', Uint8Array.of(0x50, 0x4b, 3, 4, 0, 0), /no workbook/],
    ['JSON of something else', new TextEncoder().encode('{"a":1}'), /is not a field here/],
    ['JSON cut short', new TextEncoder().encode('{"a":'), /is not JSON/],
  ])('refuses %s by name', async (_what, bytes, message) => {
    await expect(readRecipeFile(bytes)).rejects.toThrow(InvalidInput)
    await expect(readRecipeFile(bytes)).rejects.toThrow(message)
  })

  it('refuses a workbook that says it unpacks to a gigabyte, before it unpacks it', async () => {
    const file = await writeRecipe(recipe, 'xlsx')
    const view = new DataView(file.buffer)
    let at = 0
    while (view.getUint32(at, true) !== 0x02014b50) at += 1
    view.setUint32(at + 24, 1_000_000_000, true)
    await expect(readRecipeFile(file)).rejects.toThrow(/unpacks to more than/)
  })

  it('names sheet and row where a workbook cannot be read', async () => {
    const { default: write } = await import('write-excel-file/node')
    const book = write([
      { sheet: 'Parts', data: [['part', 'material', 'pct of meat'].map(String), ['meat', 'salt', 'much']] },
      {
        sheet: 'Recipe',
        data: [
          ['key', 'value'],
          ['name', 'x'],
        ],
      },
    ])
    await expect(readRecipeFile(new Uint8Array(await book.toBuffer()))).rejects.toThrow(
      /Parts row 2: has "much % salt"/,
    )
  })
})

describe('the doors of a recipe as a file', () => {
  it.each(formats)('HTTP writes %s and reads it again without recording anything', async (format) => {
    const before = await house.ledger.head()
    const file = await bytesOf(`/api/recipes/ring/file?as=${format}`)
    const response = await house.app.request('/api/recipes/read', { method: 'POST', body: file })
    expect(response.status).toBe(200)
    const body = (await response.json()) as { format: string; recipe?: Recipe; parts?: { meat: unknown[] } }
    expect(body.format).toBe(format)
    if (format === 'csv') expect(body.parts!.meat).toHaveLength(2)
    else expect(body.recipe).toEqual(recipe)
    expect(await house.ledger.head()).toEqual(before)
  })

  it('HTTP names what it has not', async () => {
    expect((await house.ask('GET', '/api/recipes/none/file?as=text')).status).toBe(404)
    expect((await house.ask('GET', '/api/recipes/ring/file?as=text&version=9')).status).toBe(404)
    expect((await house.ask('GET', '/api/recipes/ring/file?as=doc')).status).toBe(400)
    const bad = await house.app.request('/api/recipes/read', {
      method: 'POST',
      body: 'forcemeat-recipe: 1\nname: a\nx: 1\n',
    })
    expect(bad.status).toBe(400)
    expect(((await bad.json()) as { faults: { path: string }[] }).faults[0]!.path).toBe('line 3')
  })

  it('the command line checks, writes, and takes in as the next version', async () => {
    const record = join(folder, 'record')
    const run = (...args: string[]) =>
      spawnSync(process.execPath, [bin, ...args], {
        encoding: 'utf8',
        cwd: folder,
        env: { ...process.env, FORCEMEAT_RECORD: record },
      })
    expect(run('demo').status).toBe(0)
    const out = run('recipe', 'export', 'smoked-ring', '--as', 'xlsx', '-o', 'out.xlsx')
    expect(out.status, out.stderr).toBe(0)
    expect(run('recipe', 'check', 'out.xlsx').stdout).toMatch(/xlsx, the recipe Brindle smoked ring/)
    const taken = run('recipe', 'import', 'out.xlsx', '--code', 'smoked-ring', '--by', 'ida', '--note', 'as it was')
    expect(taken.stderr).toBe('')
    expect(taken.stdout.trim()).toBe('smoked-ring version 3')
    const again = run('recipe', 'export', 'smoked-ring', '-o', '-')
    const second = run('recipe', 'export', 'smoked-ring', '--recipe-version', '2', '-o', '-')
    expect(again.stdout).toBe(second.stdout)
    expect(again.stdout).toMatch(/^forcemeat-recipe: 1\nname: Brindle smoked ring\n/)
    writeFileSync(join(folder, 'bad.txt'), 'forcemeat-recipe: 1\nname: a\nmeat: lots of pork\n')
    const bad = run('recipe', 'import', 'bad.txt', '--code', 'new', '--by', 'ida')
    expect([bad.status, bad.stdout]).toEqual([2, ''])
    expect(bad.stderr).toMatch(/^line 3: /)
    expect(run('recipe', 'export', 'smoked-ring', '-o', 'out.xlsx').status).toBe(2)
  }, 60_000)
})

describe('the pre-mix sheet', () => {
  it.each(['A4', 'Letter'])(
    'prints on %s: seasonings, cure in salt with its caution, what a batch takes',
    async (size) => {
      const response = await house.app.request(`/paper/pre-mix/ring.pdf?batches=20&meatKg=10&size=${size}`)
      expect(response.status).toBe(200)
      const file = join(folder, 'premix.pdf')
      writeFileSync(file, Buffer.from(await response.arrayBuffer()))
      const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' })
      for (const part of ['Pre-mix sheet', 'ring, version 1', 'Black pepper', '600 g', 'Cure in salt', 'never spoon'])
        expect(text).toContain(part)
      // 10 kg × 20 × (1.6 + 0.22) % of salt and cure.
      expect(text).toContain('3.64 kg')
      expect(text).toContain('Ingoing nitrite 137.5 mg/kg')
    },
  )

  it('refuses half a batch and no meat by name', async () => {
    expect((await house.ask('GET', '/paper/pre-mix/ring.pdf?batches=1.5&meatKg=10')).status).toBe(400)
    const none = await house.ask('GET', '/paper/pre-mix/ring.pdf?batches=2&meatKg=0')
    expect(none.status).toBe(400)
    expect((none.body['faults'] as { path: string }[])[0]!.path).toBe('meatKg')
  })
})
