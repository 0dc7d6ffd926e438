import type { Draft } from '@forcemeat/ledger'
import { smallKitchen } from '../support.ts'

const by = 'ana'
const lot = (code: string, material: string, kg: number, supplier = 'Fenwick Farm'): Draft => ({
  kind: 'lot.receive',
  by,
  body: { lot: code, material, kg, on: '2026-11-20', supplier },
})
const weigh = (batch: string, line: string, code: string, kg: number): Draft => ({
  kind: 'batch.weigh',
  by,
  body: { batch, line, lot: code, kg },
})
const plan = (batch: string, spice: string): Draft[] => [
  {
    kind: 'batch.plan',
    by,
    body: {
      batch,
      recipe: 'LINK',
      version: 1,
      on: '2026-11-23',
      meatKg: 10,
      jurisdictions: ['EU'],
      lines: [
        { line: 'meat', material: 'pork-shoulder-trim', lot: 'PS-1', targetKg: 10 },
        { line: 'salt', material: 'salt', lot: 'SA-1', targetKg: 0.18 },
        { line: 'spice', material: 'black-pepper', lot: spice, targetKg: 0.03 },
      ],
    },
  },
  weigh(batch, 'meat', 'PS-1', 10),
  weigh(batch, 'salt', 'SA-1', 0.18),
  weigh(batch, 'spice', spice, 0.03),
]

/** An invented kitchen with a fresh link of one recipe in two batches: the second got another spice under the same line. */
export const labelKitchen: readonly Draft[] = [
  ...smallKitchen,
  lot('SA-1', 'salt', 5),
  lot('BP-1', 'black-pepper', 1),
  lot('MU-1', 'mustard-seed', 1, 'Mill B'),
  {
    kind: 'recipe.save',
    by,
    body: {
      recipe: 'LINK',
      version: 1,
      body: {
        name: 'Fenwick link',
        kind: 'fresh',
        smoked: false,
        readyToEat: false,
        meat: [{ material: 'pork-shoulder-trim', pct: 100 }],
        additions: [
          { material: 'salt', pct: 1.8 },
          { material: 'black-pepper', pct: 0.3 },
        ],
      },
    },
  },
  ...plan('LINK-1', 'BP-1'),
  ...plan('LINK-2', 'BP-1'),
  ...plan('LINK-3', 'MU-1'),
]

export const euPack = {
  name: 'Fenwick pork link',
  netG: 400,
  gtin: '9506000134352',
  code: 'gs1-128',
  lotPattern: '{batch}',
  shelfLifeDays: 7,
  validation: 'storage trial of the kitchen, six batches',
  storage: 'chilled',
  storageC: 4,
  highlyPerishable: true,
  productClass: 'meat-preparation',
  business: 'Brackwater Smokehouse, Lower Fenwick',
  approval: '1234',
  premises: { route: 'inspected', country: 'IE' },
  handling: ['Cook through before eating.'],
  layout: 'head-and-columns',
  widthMm: 150,
  heightMm: 90,
}
