/** Places and codes in words a reader knows. */
const places: Readonly<Record<string, string>> = {
  US: 'United States (inspected)',
  'US-home': 'United States (at home)',
  EU: 'European Union',
  GB: 'Great Britain',
  CA: 'Canada',
  'AU-NZ': 'Australia and New Zealand',
  Codex: 'Codex Alimentarius',
}
export const placeName = (place: string): string => places[place] ?? place

const facts: Readonly<Record<string, string>> = {
  'kitchen.set': 'Kitchen set',
  'person.add': 'Person added',
  'instrument.add': 'Instrument added',
  'instrument.check': 'Instrument checked',
  'lot.receive': 'Lot received',
  'lot.adjust': 'Lot adjusted',
  'recipe.save': 'Recipe saved',
  'batch.plan': 'Batch planned',
  'batch.weigh': 'Line weighed',
  'batch.measure': 'Measured',
  'batch.curve': 'Curve attached',
  'batch.decide': 'Decided',
  'batch.pack': 'Packed',
  'pack.ship': 'Shipped',
  'lot.split': 'Lot split',
  'lot.rework': 'Rework taken',
  'lot.move': 'Lot moved',
  'lot.treat': 'Meat made safe',
  'room.add': 'Room added',
  'batch.place': 'Batch hung',
  'order.take': 'Order taken',
  'order.close': 'Order closed',
  'price.set': 'Price set',
  'price.sell': 'Selling price set',
  'plan.resource': 'Resource set',
  'business.add': 'Business added',
  'recall.drill': 'Recall done',
  'deviation.open': 'Deviation opened',
  'deviation.act': 'Deviation acted on',
  'deviation.close': 'Deviation closed',
  'doubt.settle': 'Doubt dealt with',
  'photo.attach': 'Photograph attached',
  'label.approve': 'Label approved',
  'hazard.sign': 'Hazard plan signed',
  'entry.withdraw': 'Entry withdrawn',
}
export const factName = (kind: string): string => facts[kind] ?? kind

const purposes: Readonly<Record<string, string>> = {
  'cook-and-chill': 'Cook and chill',
  cook: 'Cook',
  chill: 'Chill',
  ferment: 'Fermentation',
  dry: 'Drying',
}
/** What a curve covers. */
export const purposeName = (purpose: string): string => purposes[purpose] ?? purpose

const states: Readonly<Record<string, string>> = {
  planned: 'planned',
  weighing: 'being weighed',
  made: 'made',
  held: 'on hold',
  released: 'released',
  packed: 'packed',
}
export const stateName = (state: string | undefined): string => (state ? (states[state] ?? state) : '')

/** How a figure of a source was read. */
const marks: Readonly<Record<string, string>> = {
  seen: 'read in the document itself',
  quoted: 'read in another document that quotes it',
  computed: 'computed from cited figures',
  'common-practice': 'common practice, no document behind it',
  'from-memory': 'from memory, not confirmed; it never decides a verdict',
}
export const markName = (mark: string | undefined): string => (mark ? (marks[mark] ?? mark) : '')

/** A field's name as a reader would say it: "leanAsSoldPct" → "lean as sold pct". */
export const spoken = (name: string): string =>
  name
    .replace(/([a-z0-9])([A-Z])/g, '$1 $2')
    .replace(/[-_]/g, ' ')
    .toLowerCase()

const fields: Readonly<Record<string, string>> = {
  kg: 'weight',
  pct: 'share',
  on: 'on',
  readabilityG: 'smallest step it shows',
  toleranceG: 'largest error allowed',
  toleranceC: 'largest error allowed',
  capacityG: 'most it weighs',
  checkEveryDays: 'days between checks',
  costPerKg: 'price',
  pricePerKg: 'price',
  supplierLot: 'their lot',
  useBy: 'use by',
  arrivalC: 'temperature on arrival',
  fatSdPct: 'spread of fat, standard deviation',
  collagenPct: 'collagen',
  leanAsSoldPct: 'lean as sold',
  altitudeM: 'altitude',
  targetKg: 'target',
  meatKg: 'weight of the meat block',
  totalKg: 'weight in all',
}

/** A field's path as a reader would say it, its unit left to the figure: "lines[0].targetKg" → "lines 1, target". */
export const fieldName = (path: string): string =>
  path
    .split('.')
    .map((part) => {
      const [, name = part, index] = /^([^[]+)(?:\[(\d+)\])?$/.exec(part) ?? []
      const said = fields[name] ?? spoken(name.replace(/([a-z])(?:Kg|Pct|Ppm|Mm|C|G|M)$/, '$1'))
      return index === undefined ? said : `${said} ${Number(index) + 1}`
    })
    .join(', ')
