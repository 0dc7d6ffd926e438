import type { Source } from '@forcemeat/craft/source'
import { EVERYWHERE, type Finding, type Rule } from '../rule.ts'

const source: Source = {
  document: 'Codex Alimentarius, General principles of food hygiene (CXC 1-1969)',
  section: 'verification and records: what is not recorded cannot be shown',
  edition: 'principle stated in our own words',
  mark: 'common-practice',
}

const rule = (id: string, title: string, scope: string, weight: Rule['weight'] = 'limit'): Rule => ({
  id,
  title,
  jurisdiction: EVERYWHERE,
  topic: 'process',
  scope,
  unit: '',
  weight,
  values: [{ source }],
})

/** Requirements of the record itself: they can leave a batch open or stop it, and they never pass it alone. */
export const batchRules = {
  weighed: rule(
    'record.weighed',
    'Every line of the weigh sheet is recorded',
    'A batch is judged by what was weighed, not by what was planned.',
  ),
  cookLog: rule(
    'record.cook-log',
    'The cook is recorded at the core',
    'Cooked product: a log of the core temperature from the cook, whole and by a thermometer in date.',
  ),
  chillLog: rule(
    'record.chill-log',
    'The chill is recorded at the core',
    'Cooked product: a log of the core temperature until it is cold.',
  ),
  curveDates: rule(
    'record.curve-dates',
    'The log of the cook bears the dates of the batch',
    'A log with dates of its own is of the days of its batch. A clock that was never set says so in the record.',
    'advice',
  ),
  curveShared: rule(
    'record.curve-shared',
    'The log of the cook is of this batch',
    'A logger file that is recorded on another batch answers for this one only where both were in that cook, the curve attached later says so and names the other batch, and both were made about the same day.',
  ),
  useBy: rule(
    'record.use-by',
    'No lot past its use-by date',
    'Every lot weighed in was within its use-by date on the day of the batch.',
  ),
  fermentLog: rule(
    'record.ferment',
    'The fermentation is recorded',
    'Fermented product: a log of the air of its chamber from the hanging until the target pH, on a clock that readings of pH can be placed on.',
  ),
  fermentPh: rule(
    'record.ferment-ph',
    'The pH the recipe ferments to was measured',
    'Fermented product: a pH at or below the target of its own recipe, by a meter calibrated the same day.',
  ),
  rawEaten: rule(
    'record.raw-eaten',
    'What killed the germs of a raw product eaten as sold is shown',
    'Fresh product eaten as sold: a treatment proven for its meat, as E. coli O157:H7 for beef and Salmonella for all meat. Trichinella is asked about beside.',
  ),
  dryAir: rule(
    'record.dry-air',
    'The air a raw product dried in was logged, and cold',
    'Dried product that was neither soured nor cooked first: a dated log of its air from the hanging on, at or below the base of the published degree-hours (60 °F; 15.6 °C) until a measured water activity stops Staphylococcus aureus, or the drying is over.',
  ),
  dryEnd: rule(
    'record.dry-end',
    'The end of the process is measured',
    'Fermented or dried product eaten as sold: a measured water activity or pH that meets a published class, by meters checked the same day.',
  ),
  dryAw: rule(
    'record.dry-aw',
    'The water activity the recipe dries to was measured',
    'Dried product: a measured water activity at or below the target of its own recipe.',
  ),
  material: rule(
    'record.material',
    'Each lot is of the material its line asks for',
    'A lot of another material is judged as what it is; the recipe says something else.',
    'advice',
  ),
  dryLoss: rule(
    'record.dry-loss',
    'The loss the recipe dries to was weighed',
    'Dried product: the mean loss of marked pieces. A loss is no hurdle by itself: it never releases a batch.',
    'advice',
  ),
  moistureProtein: rule(
    'record.moisture-protein',
    'The moisture to protein the recipe dries to was analysed',
    'Dried product: an analysis at or below the target of its own recipe; one that is computed decides nothing.',
  ),
  doubt: rule(
    'record.instrument-doubt',
    'No instrument of the batch was found out of tolerance after it',
    'An instrument found out of tolerance is not believed back to its last good check; each batch it touched is dealt with.',
  ),
  rework: rule(
    'record.rework-allergens',
    'Allergens of rework are allergens of the batch',
    'Rework brings the allergens of the batch it came out of; a batch without them does not take it.',
  ),
  reworkCure: rule(
    'record.rework-cure',
    'What rework brings of cure and additives is known',
    'Rework is taken apart into the meat block and the additives of the batch it came out of; they count to the ingoing amounts of the batch it went into.',
  ),
  judged: rule(
    'record.judged',
    'Something binding was judged',
    'A batch of which no binding rule could say anything is not released: nothing says that it is safe.',
  ),
} satisfies Record<string, Rule>

type Answer = { readonly verdict: Finding['verdict']; readonly because: string; readonly settle?: string }

/** A finding of the record's own. */
export function recordFinding(of: keyof typeof batchRules, answer: Answer): Finding {
  const { id, title, jurisdiction, weight, unit } = batchRules[of]
  const { document, section, edition, mark } = source
  return {
    rule: id,
    title,
    jurisdiction,
    weight,
    unit,
    ...answer,
    source: { document, section, edition, mark },
    inForce: {},
  }
}
