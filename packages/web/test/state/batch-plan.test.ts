import { expect, it } from 'vitest'
import { solveBlend } from '@forcemeat/craft/blend/solve'
import { recipeSchema } from '@forcemeat/craft/recipe/schema'
import { blendRequest, layOut, lotFault, workOutPlan } from '../../src/state/batch-plan.ts'
import type { LotView } from '../../src/state/views.ts'

const recipe = recipeSchema.parse({
  name: 'Coarse',
  kind: 'fresh',
  smoked: false,
  readyToEat: false,
  meat: [
    { material: 'pork-shoulder-trim', pct: 80 },
    { material: 'pork-back-fat', pct: 20 },
  ],
  additions: [{ material: 'salt', pct: 1.8 }],
  limits: [{ of: 'fat', maxPct: 26 }],
})

const lot = (code: string, material: string, rest: Partial<LotView>): LotView => ({
  seq: 1,
  root: 1,
  at: '',
  by: 'a',
  lot: code,
  material,
  kg: 50,
  on: '2026-11-20',
  balanceKg: 50,
  ...rest,
})
const lots = [
  lot('LATE', 'pork-shoulder-trim', { fatPct: 12, fatSdPct: 1, costPerKg: 5, useBy: '2026-12-09' }),
  lot('SOON', 'pork-shoulder-trim', { fatPct: 24, fatSdPct: 2, costPerKg: 4, useBy: '2026-12-01', balanceKg: 6 }),
  lot('FAT', 'pork-back-fat', { fatPct: 82, fatSdPct: 1, costPerKg: 2 }),
]

it('lays out each line at its share from the lot whose date comes first', () => {
  expect(layOut(recipe, 10, lots, '2026-11-25')).toEqual([
    { material: 'pork-shoulder-trim', kg: 8, lot: 'SOON' },
    { material: 'pork-back-fat', kg: 2, lot: 'FAT' },
    { material: 'salt', kg: 0.18 },
  ])
})

it('passes over a lot that is past its date or not yet in on the day', () => {
  const lotOf = (on: string) => layOut(recipe, 10, lots, on)[0]?.lot
  expect([lotOf('2026-12-01'), lotOf('2026-12-02'), lotOf('2026-12-10'), lotOf('2026-11-19')]).toEqual([
    'SOON',
    'LATE',
    undefined,
    undefined,
  ])
})

it('says what is wrong with a lot chosen by hand', () => {
  const wrong = (material: string, code: string, on: string) => lotFault(lots, { material, lot: code }, on)
  expect(wrong('pork-shoulder-trim', 'SOON', '2026-12-01')).toBeUndefined()
  expect(wrong('pork-shoulder-trim', 'SOON', '2026-12-02')).toMatch(/good until 2026-12-01/)
  expect(wrong('pork-shoulder-trim', 'FAT', '2026-12-01')).toMatch(/another material/)
  expect(wrong('pork-shoulder-trim', 'NONE', '2026-12-01')).toMatch(/not in stock/)
  expect(wrong('pork-shoulder-trim', 'LATE', '2026-11-01')).toMatch(/came in on 2026-11-20/)
  expect(lotFault(lots, { material: 'salt' }, '2026-12-01')).toBeUndefined()
})

it('asks for a blend that holds the shares of the recipe and every limit of the whole mix', () => {
  const { input } = blendRequest(recipe, 10, lots, true, undefined)
  const out = solveBlend(input)
  expect(out.status).toBe('optimal')
  const kg = (id: string): number => out.lines.find((l) => l.id === id)?.kg ?? 0
  expect(kg('LATE') + kg('SOON')).toBeCloseTo(8, 6)
  expect(kg('FAT')).toBeCloseTo(2, 6)
  expect(kg('+ salt')).toBeCloseTo(0.18, 6)
  expect(kg('SOON')).toBeLessThanOrEqual(6 + 1e-6)
  // Fat summed by hand over the whole mix of 10.18 kg.
  expect((kg('LATE') * 12 + kg('SOON') * 24 + kg('FAT') * 82) / 10.18).toBeLessThanOrEqual(26 + 1e-6)
})

it('lets the shares move where the recipe gives them room, and only there', () => {
  const roomy = {
    ...recipe,
    meat: [
      { material: 'pork-shoulder-trim', pct: 80, minPct: 70, maxPct: 90 },
      { material: 'pork-back-fat', pct: 20 },
    ],
  }
  const out = solveBlend(blendRequest(roomy, 10, lots, true, undefined).input)
  // Back fat is held at its 20 %, so the shoulder has nowhere to go.
  expect(out.lines.find((l) => l.id === 'FAT')?.kg).toBeCloseTo(2, 6)
})

it('says so where a lot has no price or cannot be reckoned with', () => {
  const { notes, offered } = blendRequest(
    recipe,
    10,
    [...lots, lot('FREE', 'pork-back-fat', { fatPct: 80 }), lot('GONE', 'pork-back-fat', { balanceKg: 0 })],
    true,
    undefined,
  )
  expect(offered).toBe(4)
  expect(notes.join(' ')).toContain('FREE')
})

it('gives each line its own place on the weigh sheet, none to a line of nothing', () => {
  const lines = [
    ...layOut(recipe, 10, lots, '2026-11-25').slice(0, 2),
    { material: 'water', kg: 0 },
    { material: 'salt', kg: 0.18 },
  ]
  const worked = workOutPlan({
    recipe,
    meatKg: 10,
    lines,
    lots,
    instruments: [],
    on: '2026-11-25',
    jurisdictions: ['US'],
  })
  if (!('sheetFor' in worked)) throw new Error('not worked out')
  expect(worked.sheetFor.map((l) => l?.material)).toEqual(['pork-shoulder-trim', 'pork-back-fat', undefined, 'salt'])
  expect(worked.sheetFor[0]?.verdict).toBe('unfit')
})
