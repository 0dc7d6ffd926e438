/** An address that is not a calculation, as the OpenAPI document lists it. */
export type Address = {
  readonly method: 'get' | 'post' | 'put'
  readonly path: string
  readonly summary: string
  readonly query?: Readonly<Record<string, string>>
  readonly body?: 'json' | 'bytes'
  readonly answer?: 'json' | 'bytes' | 'events' | 'pdf'
  readonly made?: 201
}

const size = { size: 'A4 or Letter', units: 'metric or us; the kitchen’s where none are said' }

export const addresses: readonly Address[] = [
  { method: 'get', path: '/api/health', summary: 'Whether the server runs, its version, and how long the record is.' },
  { method: 'get', path: '/api/calc', summary: 'Names and titles of all calculations.' },
  { method: 'get', path: '/api/calc/{name}', summary: 'One calculation: title, summary, schemas, sources, example.' },
  {
    method: 'post',
    path: '/api/entries',
    summary:
      'Record a draft { kind, body, by, key?, corrects?, why? }, or a list of drafts together. Sent again under its key: 200, with what was recorded.',
    body: 'json',
    made: 201,
  },
  {
    method: 'get',
    path: '/api/entries',
    summary: 'Entries of the record.',
    query: {
      after: 'sequence number to start after',
      limit: 'how many, at most 1000',
      kind: 'kind of entry',
      about: 'code the entry is about',
      q: 'text the entry holds',
      order: 'desc for newest first',
    },
  },
  { method: 'get', path: '/api/entries/{seq}', summary: 'One entry, with what became of it.' },
  {
    method: 'get',
    path: '/api/live',
    summary: 'Server-sent events: "entry" for each new entry, "feed" for readings of a batch that still come in.',
    answer: 'events',
  },
  {
    method: 'get',
    path: '/api/kitchen',
    summary: 'The kitchen, its people, its instruments with when each is next due.',
  },
  { method: 'get', path: '/api/materials', summary: 'The table of materials.' },
  { method: 'get', path: '/api/materials/{material}', summary: 'One material with the documents behind it.' },
  { method: 'get', path: '/api/instruments/{instrument}', summary: 'One instrument with all its checks.' },
  {
    method: 'get',
    path: '/api/arrival',
    summary: 'Whether meat came in cold enough: by the law of the places it is sold in and the limit of the kitchen.',
    query: { material: 'material', on: 'day', arrivalC: 'temperature on arrival, °C', instrument: 'thermometer' },
  },
  {
    method: 'get',
    path: '/api/lots',
    summary: 'Lots with their balances.',
    query: {
      q: 'text to look for',
      material: 'material',
      left: '1 for lots with something left',
      limit: 'how many',
      after: 'lot to start after',
    },
  },
  { method: 'get', path: '/api/lots/{lot}', summary: 'One lot with its movements.' },
  { method: 'get', path: '/api/recipes', summary: 'Recipes, each with its newest version.' },
  { method: 'get', path: '/api/recipes/{recipe}', summary: 'All versions of one recipe.' },
  {
    method: 'get',
    path: '/api/recipes/{recipe}/file',
    summary: 'A recipe as a file: the text format, a table of its parts, a workbook, or JSON.',
    query: { as: 'text, csv, xlsx or json', version: 'version; the newest without it' },
    answer: 'bytes',
  },
  {
    method: 'post',
    path: '/api/recipes/read',
    summary: 'Reads a file of a recipe and records nothing: { format, recipe } or, of CSV, { format, parts }.',
    query: { as: 'text, csv, xlsx or json; found by how the file begins without it' },
    body: 'bytes',
  },
  {
    method: 'get',
    path: '/paper/pre-mix/{recipe}.pdf',
    summary: 'Pre-mix sheet for several batches of a recipe: seasonings, and cure in salt.',
    query: { batches: 'how many', meatKg: 'meat block of one batch', version: 'version', ...size },
    answer: 'pdf',
  },
  {
    method: 'get',
    path: '/api/batches',
    summary: 'Batches with their state.',
    query: { state: 'state', recipe: 'recipe', limit: 'how many', after: 'batch to start after' },
  },
  { method: 'get', path: '/api/batches/{batch}', summary: 'One batch with its facts, and its findings judged now.' },
  {
    method: 'post',
    path: '/api/batches/{batch}/decide',
    summary:
      'Release or hold: { decision, reasons, by }. Findings are judged anew and signed with the facts; a release that a limit stops is refused with 409.',
    body: 'json',
    made: 201,
  },
  {
    method: 'get',
    path: '/api/batches/{batch}/curves/{seq}',
    summary: 'A recorded curve: thinned series, limits, lethality, chill windows, findings.',
  },
  {
    method: 'get',
    path: '/api/batches/{batch}/ferment',
    summary:
      'A fermentation: air of the chamber, pH readings with the standing of their meter, degree-hours with their limits, findings.',
  },
  {
    method: 'get',
    path: '/api/batches/{batch}/dry',
    summary:
      'A drying: marked pieces, air of the room as logged and as planned, measured water activity, targets, what a forecast takes.',
  },
  {
    method: 'get',
    path: '/api/today',
    summary:
      'What is in hand: batches made or out that stand in doubt, holds, batches on the way, lots near their date, instruments due.',
  },
  {
    method: 'get',
    path: '/api/rules',
    summary: 'Rules with scope, dates, sources.',
    query: { q: 'words to look for', jurisdiction: 'place', topic: 'topic' },
  },
  { method: 'get', path: '/api/rules/{id}', summary: 'One rule.' },
  {
    method: 'put',
    path: '/api/files',
    summary: 'Keep a file of the record; answers its SHA-256.',
    body: 'bytes',
    made: 201,
  },
  { method: 'get', path: '/api/files/{sha256}', summary: 'A file of the record, as it was.', answer: 'bytes' },
  {
    method: 'post',
    path: '/api/curves/read',
    summary: "How a logger's file was read: columns, unit, steps, gaps, what must be asked, a thinned series.",
    query: {
      delimiter: 'character between columns',
      decimal: '. or ,',
      unit: 'C or F',
      dateOrder: 'YMD, DMY or MDY',
      timeUnit: 'seconds, minutes, hours, hh:mm or mm:ss',
      clockChange: 'shift or as-read',
      roles: 'JSON object, column to core, house or other',
    },
    body: 'bytes',
  },
  {
    method: 'get',
    path: '/api/recipes/{recipe}/curves',
    summary: 'The last cooks of a recipe laid over one another: come-up and chill times, peak, log reduction, core.',
    query: { limit: 'how many, at most 20' },
  },
  {
    method: 'get',
    path: '/api/charts/{recipe}',
    summary: "Control charts of a recipe's batches: fat, yield, link weight, end pH, come-up, chill time.",
    query: { coldC: 'core temperature that counts as cold, °C' },
  },
  {
    method: 'get',
    path: '/api/hazard-plan/{recipe}',
    summary: 'Draft hazard plan of a recipe, and what changed since another version.',
    query: { version: 'version of the recipe', against: 'version to compare with' },
  },
  {
    method: 'get',
    path: '/paper/hazard-plan/{recipe}.pdf',
    summary: 'The draft hazard plan, to complete and sign.',
    query: size,
    answer: 'pdf',
  },
  {
    method: 'get',
    path: '/paper/instrument/{instrument}.pdf',
    summary: 'The record of an instrument: checks, drift, batches it put in doubt.',
    query: size,
    answer: 'pdf',
  },
  {
    method: 'get',
    path: '/paper/deviation/{deviation}.pdf',
    summary: 'One deviation with what was done.',
    query: size,
    answer: 'pdf',
  },
  {
    method: 'get',
    path: '/api/photos/{of}/{id}',
    summary: 'Photographs of a batch, lot, pack, instrument or deviation.',
  },
  { method: 'get', path: '/api/photos/{sha256}', summary: 'A photograph, as JPEG.', answer: 'bytes' },
  { method: 'get', path: '/api/import', summary: 'What can be taken from a file, and by which columns.' },
  {
    method: 'post',
    path: '/api/import/{kind}/read',
    summary:
      'How a file of lots, orders, prices or businesses (CSV or XLSX) would be taken: rows as entries, and each bad cell by name.',
    query: { decimal: '. or , where the cells do not show it: the answer then asks for it, and no row is good' },
    body: 'bytes',
  },
  { method: 'get', path: '/api/feed', summary: 'Batches whose feed of readings is open.' },
  {
    method: 'get',
    path: '/api/feed/{batch}',
    summary:
      'Readings of a batch while it cooks, chills, sours or dries: temperatures as tempC, relative humidity as rhPct.',
    query: { after: 'how many readings to leave out from the start' },
  },
  {
    method: 'post',
    path: '/api/feed/{batch}/readings',
    summary:
      'Keep readings: a list of { channel, tempC | rhPct, minute | at }, one quantity a channel. The first opens the feed; a reading sent again is kept once.',
    body: 'json',
    made: 201,
  },
  {
    method: 'post',
    path: '/api/feed/{batch}/close',
    summary:
      'Close a feed into the record: { by, purpose, channels: [{ channel, role, instrument? }], note?, key? }. Makes a logger file and a curve entry, one for all channels read at the same instants; sent again under its key it answers 200 with what was recorded.',
    body: 'json',
    made: 201,
  },
  { method: 'get', path: '/api/trace/lot/{lot}', summary: 'From a lot forward to batches, packs and customers.' },
  { method: 'get', path: '/api/trace/pack/{pack}', summary: 'From a pack back to lots and suppliers.' },
  {
    method: 'get',
    path: '/api/recall/{type}/{id}',
    summary:
      'From a lot, a pack or a batch to everything it is in, through splits and rework: packs, customers, mass balance, what is accounted for.',
  },
  {
    method: 'get',
    path: '/api/recall/{type}/{id}/csv',
    summary: 'Consignments, inputs or batches of a recall as CSV, with the fields of a tracing rule.',
    query: { form: 'eu, ca or us', part: 'consignments, inputs or batches' },
    answer: 'bytes',
  },
  {
    method: 'get',
    path: '/paper/recall/{type}/{id}.pdf',
    summary: 'The recall report.',
    query: { ...size, form: 'eu, ca or us' },
    answer: 'pdf',
  },
  { method: 'get', path: '/api/recall', summary: 'Drills and recalls recorded.' },
  { method: 'get', path: '/api/deviations', summary: 'Deviations with what was done about them.' },
  { method: 'get', path: '/api/deviations/{deviation}', summary: 'One deviation.' },
  {
    method: 'get',
    path: '/api/doubts',
    summary: 'Instruments found out of tolerance, with every batch they touched since their last good check.',
  },
  { method: 'get', path: '/api/businesses', summary: 'Suppliers, customers and carriers.' },
  { method: 'get', path: '/api/rooms', summary: 'Rooms with what hangs in them and since when.' },
  {
    method: 'get',
    path: '/api/rooms/{room}/calendar',
    summary:
      'Water the batches in a room give off by day against what its unit takes, turns for those that wait, and which is at risk of a crust.',
    query: { days: 'how many, at most 180', without: 'codes of batches to leave out, by commas' },
  },
  {
    method: 'get',
    path: '/api/slow',
    summary:
      'Batches that ferment or dry: room, last pH and loss, the band of the day they are ready, what they wait for.',
  },
  { method: 'get', path: '/api/orders', summary: 'Orders by the day they are due, open and closed.' },
  {
    method: 'get',
    path: '/api/prices',
    summary: 'Prices of materials and of what is sold, in the order they came to hold.',
  },
  { method: 'get', path: '/api/resources', summary: "What a day's work takes room of: mixer, smokehouse, hands." },
  {
    method: 'get',
    path: '/api/plan',
    summary: 'Batches by day for the open orders, with lots, loads, what is late or short, what to buy, what expires.',
    query: {
      days: 'days from today, at most 42; 7 without it',
      buyFrom: 'first day bought goods can be here; tomorrow without it',
      closed: 'days of the week on which nothing is begun, 0 = Sunday, by commas; 0 without it',
    },
  },
  {
    method: 'get',
    path: '/paper/plan/week.pdf',
    summary: 'The plan of the days to come, on paper.',
    query: {
      ...size,
      days: 'days from today',
      buyFrom: 'first day bought goods can be here',
      closed: 'closed weekdays',
    },
    answer: 'pdf',
  },
  { method: 'get', path: '/api/session', summary: 'Who is signed in, and what they may do.' },
  { method: 'get', path: '/api/people', summary: 'People, and who has a passphrase or a PIN.' },
  { method: 'get', path: '/api/people/{person}/export', summary: 'Everything the record holds on a person.' },
  {
    method: 'post',
    path: '/api/people/{person}/passphrase',
    summary: "Set a person's passphrase: { passphrase }. Their own, or as an owner.",
    body: 'json',
  },
  {
    method: 'post',
    path: '/api/people/{person}/pin',
    summary: 'Set the PIN with which a person takes over a shared tablet: { pin }.',
    body: 'json',
  },
  {
    method: 'post',
    path: '/api/switch',
    summary: 'Hand a tablet that is signed in to another person: { person, pin }.',
    body: 'json',
  },
  {
    method: 'post',
    path: '/api/hazard-plan/{recipe}/sign',
    summary:
      'Sign the hazard plan of a version as it stands, completed: { version, planHash, name, qualification, completed: [{ item, said }], by, key? }.',
    body: 'json',
    made: 201,
  },
  {
    method: 'get',
    path: '/paper/record/{type}/{id}.pdf',
    summary:
      'Everything recorded of a lot, batch, pack, instrument, deviation, recipe, business, room, order, label or recall, entry by entry, with hashes.',
    query: { ...size, after: 'entry to start after, for the next part of a long record' },
    answer: 'pdf',
  },
  {
    method: 'get',
    path: '/paper/entries.pdf',
    summary: 'Entries of the record on paper, by kind and by text.',
    query: { ...size, kind: 'kind of entry', q: 'text the entry holds', after: 'entry to start after' },
    answer: 'pdf',
  },
  { method: 'get', path: '/paper/batch-sheet/{batch}.pdf', summary: 'The batch sheet.', query: size, answer: 'pdf' },
  {
    method: 'get',
    path: '/paper/cook-and-chill/{batch}.pdf',
    summary: 'The cook-and-chill record.',
    query: size,
    answer: 'pdf',
  },
  {
    method: 'get',
    path: '/api/backup',
    summary: 'Backups: the plan, the last by the clock and the last by hand that were tried out, and what went wrong.',
  },
  {
    method: 'post',
    path: '/api/backup',
    summary:
      "An online backup into the record's folder with its open feeds, restored into a scratch record and held against it.",
    made: 201,
  },
  {
    method: 'post',
    path: '/api/demo',
    summary: 'Fill an empty record with the invented kitchen.',
    made: 201,
  },
  {
    method: 'post',
    path: '/api/sign-in',
    summary: 'Open a session: { person?, passphrase }. Only where a passphrase is set.',
    body: 'json',
  },
  { method: 'post', path: '/api/sign-out', summary: 'Close the session.' },
  { method: 'get', path: '/api/labels', summary: 'Approvals of labels that stand, the newest first.' },
  {
    method: 'post',
    path: '/api/labels/proof',
    summary:
      'A label made from { label, place, recipe or batch, pack }: its content in every language, its drawing as SVG, what was measured on it, what stops it, what changed.',
    body: 'json',
  },
  {
    method: 'post',
    path: '/api/labels/pdf',
    summary:
      'The same as PDF: one, or a sheet (sheet: A4 or Letter; plan: { across, down, marginXMm, marginYMm, gutterXMm, gutterYMm }). What nobody has approved is marked as a proof.',
    body: 'json',
    answer: 'pdf',
  },
  {
    method: 'post',
    path: '/api/labels/approve',
    summary:
      'Approve a label as the server makes it from the record, with reasons and an answer to each open question.',
    body: 'json',
    made: 201,
  },
  {
    method: 'get',
    path: '/paper/label/{file}',
    summary: 'An approved label, code.pdf or code.svg, for the batch it was approved from or another of the same make.',
    query: {
      place: 'US, EU, GB, CA or AU-NZ',
      batch: 'code of the batch',
      packing: 'packing of the batch it is printed for; the earliest day of all of them where none is named',
      packedOn: 'day of packing, where it is one of the batch',
      frozenOn: 'day the batch was frozen',
      sheet: 'one, A4 or Letter',
      across: 'labels across',
      down: 'labels down',
      marginXMm: 'margin left and right',
      marginYMm: 'margin top and bottom',
      gutterXMm: 'gutter between columns',
      gutterYMm: 'gutter between rows',
    },
    answer: 'pdf',
  },
]
