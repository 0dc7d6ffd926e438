import type { CriticalLimit, PlannedHazard } from '@forcemeat/rulebook/hazard/plan'
import { bothTemperatures } from '@forcemeat/craft/quantity/sentence'
import type { Content, DocumentDefinition } from 'pdfmake'
import type { PlanOfRecipe } from '../hazard/plan-of.ts'
import type { SignedPlan } from '../hazard/signed.ts'
import { paperDay, paperInstant } from './dates.ts'
import type { System } from './amounts.ts'
import { caution, contentWidth, factRow, heading, ruled, sheet, signatures, type Frame } from './frame.ts'

const th = (text: string): Content => ({ text, style: 'th' })
const td = (text: string): Content => ({ text, fontSize: 8.5 })
const titled = {
  ...ruled,
  paddingLeft: (i: number) => (i === 0 ? 0 : 5),
  hLineWidth: (i: number, node: { table: { headerRows?: number; body: unknown[] } }) =>
    i === 1 ? 0 : ruled.hLineWidth(i, node),
}

/** A table under its title; title and heads stand again on each page, and never without a row below them. */
const table = (
  title: string,
  widths: readonly (string | number)[],
  heads: readonly string[],
  rows: readonly (readonly Content[])[],
): Content => ({
  table: {
    headerRows: 2,
    keepWithHeaderRows: 1,
    dontBreakRows: true,
    widths: [...widths],
    body: [
      [{ text: title, style: 'heading', colSpan: heads.length }, ...heads.slice(1).map(() => '')],
      heads.map(th),
      ...rows.map((r) => [...r]),
    ],
  },
  layout: titled,
})

const most = 12
const limitText = (l: CriticalLimit, units: System): string =>
  `${bothTemperatures(l.title, units)} (${l.jurisdiction}): ${bothTemperatures(l.limit, units)}.${l.ifScope === undefined ? '' : ` Only for: ${l.ifScope}.`} ${l.source}${l.unread ? '. FROM MEMORY: confirm before use' : ''}`

/** A row for each limit of a point, so that a page is filled to its foot; the point is named in each. */
const limitRows = (point: string, h: PlannedHazard & { readonly name: string }, units: System): Content[][] => {
  const said = h.limits.slice(0, most).map((l) => limitText(l, units))
  if (said.length === 0) said.push('none in the rulebook for these places: to be set by a qualified person')
  if (h.limits.length > most) said.push(`and ${h.limits.length - most} more; the Rules page has them all`)
  return said.map((text, i) => [td(point), td(i === 0 ? `${h.name}: ${h.hazard}` : ''), td(text)])
}

const draftCaution = caution(
  'A draft, not a plan',
  'Made from the recipe and the rulebook. A qualified person must complete it for this kitchen, validate it and sign it before it is one. Hazards beside those named may be reasonably likely here. Local codes and licensed practice come first.',
)

/** Who signed, when, and what pins what they signed. */
const signature = (s: SignedPlan): Content[] => [
  factRow([
    ['Signed by', s.name],
    ['On', paperDay(s.on)],
    ['Entry', String(s.seq)],
  ]),
  { text: `Qualified by: ${s.qualification}`, margin: [0, 4, 0, 0] },
  {
    text: `Recorded by ${s.by} at ${paperInstant(s.at)}. The plan as signed: SHA-256 ${s.file}`,
    style: 'small',
  },
]

const completed = (s: SignedPlan): Content =>
  table(
    'Completed for this kitchen',
    ['*', '*'],
    ['What the draft left open', 'What holds here'],
    s.completed.map((c) => [td(c.item), td(c.said)]),
  )

/** The hazard plan in the order of the seven principles: a draft, or the copy somebody signed. */
export function hazardPlanPaper(frame: Frame, p: PlanOfRecipe, signed?: SignedPlan): DocumentDefinition {
  const { plan } = p
  const all = plan.steps.flatMap((s) => s.hazards.map((h) => ({ ...h, name: s.name })))
  const critical = all.filter((h) => h.critical)
  const points = new Map(critical.map((h, i) => [h.id, `CCP\u00A0${i + 1}`]))
  const content: Content[] = [
    { text: signed ? 'Hazard plan: signed copy' : 'Hazard plan: draft', style: 'title' },
    factRow([
      ['Product', plan.recipe.name],
      ['Recipe', `${p.recipe}, version ${p.version}`],
      ['Places', plan.jurisdictions.join(', ')],
      ['Rules in force on', paperDay(plan.on)],
    ]),
    factRow(plan.product),
    { text: '', margin: [0, 4, 0, 0] },
    ...(signed ? signature(signed) : [draftCaution]),
    ...(p.changes.length > 0
      ? [
          table(
            `What changed since version ${p.against}`,
            ['auto', 'auto', '*', '*'],
            ['Step', 'What', 'Was', 'Is'],
            p.changes.map((c) => [td(c.step), td(c.what), td(c.was ?? '–'), td(c.is ?? '–')]),
          ),
        ]
      : []),
    heading('Flow'),
    {
      ol: plan.steps.map((s) =>
        s.how === undefined ? s.name : `${s.name}: ${bothTemperatures(s.how, frame.kitchen.units)}`,
      ),
    },
    table(
      'Principle 1: hazards by step',
      ['auto', 'auto', '*', '*', '*', 'auto'],
      ['Step', 'Kind', 'Hazard', 'Cause', 'Control', 'Point'],
      all.map((h) => [
        td(h.name),
        td(h.kind),
        td(h.hazard),
        td(h.cause),
        td(h.control),
        td(points.get(h.id) ?? 'good practice'),
      ]),
    ),
    table(
      'Principles 2 and 3: critical control points and their limits',
      ['auto', 'auto', '*'],
      ['Point', 'Step and hazard', 'Critical limits, from the rulebook on the day'],
      critical.flatMap((h) => limitRows(points.get(h.id)!, h, frame.kitchen.units)),
    ),
    table(
      'Principles 4 to 7: monitoring, correction, verification, records',
      ['auto', '*', '*', '*', '*'],
      ['Point', 'Monitoring', 'Corrective action', 'Verification', 'Record'],
      critical.map((h) => [
        td(points.get(h.id)!),
        td(h.monitoring),
        td(h.correction),
        td(h.verification),
        td(h.record),
      ]),
    ),
    ...(signed
      ? [
          {
            stack: [completed(signed)],
            unbreakable: signed.completed.length <= 12,
          } as Content,
          {
            text: 'The plan is that of who signed it. Local codes and licensed practice come first; when the process, a material or a rule changes it is looked at again.',
            style: 'small',
            margin: [0, 6, 0, 0],
          } as Content,
        ]
      : [heading('Still open: to be completed'), { ul: [...plan.open] } as Content]),
    signatures(
      signed ? ['Signature', 'Seen by, date'] : ['Completed and validated by, date', 'Approved by, date'],
      contentWidth(frame.size),
    ),
  ]
  return sheet(frame, signed ? 'Hazard plan (signed copy)' : 'Hazard plan (draft)', content)
}
