import { labelPack } from '@forcemeat/craft/declare/label/pack'
import { labelPlacesHeld } from '@forcemeat/craft/declare/label/schema'
import { isoDate, list, oneOf, quantity, text } from '@forcemeat/craft/schema'
import { canonical, type Fact } from '@forcemeat/ledger'
import { code } from '@forcemeat/ledger/code'
import { Hono } from 'hono'
import { z } from 'zod'
import { signedBy } from '../access/entries.ts'
import { kindsOf } from '../access/roles.ts'
import type { AppEnv, House } from '../context.ts'
import { jsonLimit, readQuery, readShaped } from '../http/body.ts'
import { notHere, refuse, Refusal } from '../http/refusal.ts'
import type { SheetPlan } from '../paper/label-draw.ts'
import type { Proof, ProofAsked } from '../paper/label-proof.ts'

const settled = list(z.strictObject({ id: text(200), how: text(400) }), { max: 60 })
const asked = {
  label: code(),
  recipe: code().optional(),
  version: z.int().min(1).max(100_000).optional(),
  batch: code().optional(),
  packing: code().optional(),
  place: oneOf(labelPlacesHeld),
  pack: labelPack,
  settled: settled.optional(),
}
const sheet = oneOf(['one', 'A4', 'Letter'])
const mm = (max: number) => quantity('mm', { min: 0, max }).optional()
const count = () =>
  z
    .int({ error: 'is not a whole number; allowed: 1 to 50' })
    .min(1, { error: 'is below 1; allowed: 1 to 50' })
    .max(50, { error: 'is above 50; allowed: 1 to 50' })
    .optional()
const plan = {
  across: count(),
  down: count(),
  marginXMm: mm(60),
  marginYMm: mm(60),
  gutterXMm: mm(60),
  gutterYMm: mm(60),
}
const proofAsked = z.strictObject(asked)
const pdfAsked = z.strictObject({ ...asked, sheet: sheet.optional(), plan: z.strictObject(plan).optional() })
const approvalAsked = z.strictObject({
  ...asked,
  reasons: list(text(400), { min: 1, max: 20 }),
  by: text(60),
  key: text(100).optional(),
})
/** A figure of the address, which comes as text. */
const numbered = <T extends z.ZodType>(of: T) =>
  z.preprocess((v) => (typeof v === 'string' && /^\d+(?:\.\d+)?$/.test(v) ? Number(v) : v), of)
const paperQuery = z.strictObject({
  place: oneOf(labelPlacesHeld),
  batch: code().optional(),
  packing: code().optional(),
  packedOn: isoDate().optional(),
  frozenOn: isoDate().optional(),
  sheet: sheet.optional(),
  across: numbered(plan.across),
  down: numbered(plan.down),
  marginXMm: numbered(plan.marginXMm),
  marginYMm: numbered(plan.marginYMm),
  gutterXMm: numbered(plan.gutterXMm),
  gutterYMm: numbered(plan.gutterYMm),
})

/** The drawing of labels, with its fonts, is loaded with the first label asked for. */
const drawing = () => import('../paper/label-proof.ts')

const safeName = (name: string): string => name.replaceAll(/[^A-Za-z0-9.-]/g, '_')

/** What of a proof goes out: all but the boxes, which the drawing shows. */
async function shown(proof: Proof) {
  const { labelSvg } = await import('../paper/label-draw.ts')
  const { boxes: _boxes, ...drawn } = proof.drawn
  return { ...proof, drawn, svg: labelSvg(proof.drawn) }
}

/**
 * Whether an approval is the one asked for, sent again after a broken line. It stands as it was signed, whatever the proof says now of
 * what the batch holds; but another pack, batch, answer or reason is another approval.
 */
function isOf(
  { label, place, recipe, version, batch, pack, settled = [], reasons }: Fact<'label.approve'>,
  again: Omit<z.infer<typeof approvalAsked>, 'by' | 'key'>,
  proof: Proof,
): boolean {
  const { layout, widthMm, heightMm } = pack
  const said = new Set((again.settled ?? []).map((s) => canonical(s)))
  return (
    canonical([label, place, recipe, version, batch, reasons]) ===
      canonical([proof.label, again.place, proof.recipe, proof.version, proof.batch, again.reasons]) &&
    canonical({ layout, widthMm, heightMm, ...again.pack }) === canonical(pack) &&
    settled.every((s) => said.has(canonical(s)))
  )
}

/** Labels: proof, approval, paper. What is approved is made here from the record, never taken from outside. */
export const labelRoutes = ({ ledger, now }: House) => {
  const today = () => now().toISOString().slice(0, 10)
  const proofOf = async (of: ProofAsked) => (await drawing()).proofOf(ledger, of, today())
  const pdfOf = async (proof: Proof, how: z.infer<typeof sheet>, approved: boolean, laid: SheetPlan = {}) => {
    const [{ labelDocument, onSheet }, { printPdf }, kitchen] = await Promise.all([
      import('../paper/label-draw.ts'),
      import('../paper/print.ts'),
      ledger.kitchen(),
    ])
    if (how !== 'one') {
      const { fits, across, down } = onSheet(how, proof.drawn, laid)
      if (fits.across * fits.down === 0)
        throw refuse(400, `is ${how}, which a label of this size does not fit on; allowed: one`, 'sheet')
      if (across > fits.across)
        throw refuse(400, `is ${across}, wider than ${how}; allowed: at most ${fits.across}`, 'across')
      if (down > fits.down) throw refuse(400, `is ${down}, longer than ${how}; allowed: at most ${fits.down}`, 'down')
    }
    const standing = {
      approved,
      title: `Label ${proof.label}, ${proof.content.place}`,
      author: kitchen?.name ?? 'Kitchen without a name',
      at: approved && proof.approved ? proof.approved.at : now().toISOString(),
    }
    return printPdf(labelDocument(proof.drawn, how, standing, laid))
  }
  return new Hono<AppEnv>()
    .get('/api/labels', async (c) => {
      const entries = await ledger.entries({ kind: 'label.approve', order: 'desc', limit: 500 })
      const standing = entries.filter((e) => e.kind === 'label.approve' && e.standing === 'stands')
      return c.json({ approvals: standing.map((e) => ({ ...e.body, seq: e.seq, at: e.at, by: e.by })) })
    })
    .post('/api/labels/proof', jsonLimit, async (c) =>
      c.json(await shown(await proofOf(await readShaped(c, proofAsked)))),
    )
    .post('/api/labels/pdf', jsonLimit, async (c) => {
      const { sheet: how = 'one', plan: laid, ...rest } = await readShaped(c, pdfAsked)
      const proof = await proofOf(rest)
      // Without a batch it has no lot: then it is a proof, whoever approved it.
      const approved = proof.stands && proof.batch !== undefined
      return c.body(await pdfOf(proof, how, approved, laid), 200, { 'content-type': 'application/pdf' })
    })
    .post('/api/labels/approve', jsonLimit, async (c) => {
      const { reasons, by, key, ...rest } = await readShaped(c, approvalAsked)
      const identity = c.get('identity')
      signedBy(identity, by)
      if (identity && !kindsOf(identity).includes('label.approve'))
        throw refuse(403, `is ${identity.role}, who may not approve a label; allowed: a checker or owner`, 'by')
      const before = key === undefined ? undefined : await ledger.entryOfKey(key)
      const proof = await proofOf(rest)
      if (before?.kind === 'label.approve' && before.by === by && isOf(before.body, { ...rest, reasons }, proof))
        return c.json({ entries: [before] })
      const open = proof.blocks.filter((b) => b.settled === undefined)
      if (open.length > 0)
        throw new Refusal(
          409,
          open.map((b) => ({ path: 'label', message: `${b.what}; would settle it: ${b.settle}` })),
          { blocks: open },
        )
      const { content } = proof
      const { layout, widthMm, heightMm } = proof.size
      const answered = proof.blocks.flatMap((b) => (b.settled === undefined ? [] : [{ id: b.id, how: b.settled }]))
      const entries = await ledger.append([
        {
          kind: 'label.approve',
          by,
          ...(key === undefined ? {} : { key }),
          body: {
            label: proof.label,
            recipe: proof.recipe,
            version: proof.version,
            ...(proof.batch === undefined ? {} : { batch: proof.batch }),
            place: rest.place,
            pack: { ...rest.pack, layout, widthMm, heightMm },
            contentHash: proof.contentHash,
            fields: content.fields,
            allergens: content.allergens,
            ...(answered.length === 0 ? {} : { settled: answered }),
            reasons,
          },
        },
      ])
      return c.json({ entries }, 201)
    })
    .get('/paper/label/:file{[^/]+\\.(?:pdf|svg)}', async (c) => {
      const file = c.req.param('file')
      const name = file.slice(0, -'.pdf'.length)
      const { place, batch, packing, packedOn, frozenOn, sheet: how = 'one', ...laid } = readQuery(c, paperQuery)
      const approval = await (await drawing()).approvalOf(ledger, name, place)
      if (!approval) throw notHere('approved label', `${name} for ${place}`)
      const from = batch ?? approval.batch
      if (from === undefined)
        throw refuse(
          409,
          `is missing, and label ${name} is approved for recipe ${approval.recipe}, which has no lot; allowed: the code of the batch it is printed for`,
          'batch',
        )
      // Days are of the batch that is printed: its own packings count, and what was typed on approval holds for that batch alone.
      const { packedOn: typed, frozenOn: frozen, ...lasting } = approval.pack
      const own = from === approval.batch
      const unpacked = own && (await ledger.batch(from))?.packs.length === 0
      const days = {
        packedOn: packedOn ?? (unpacked ? typed : undefined),
        frozenOn: frozenOn ?? (own ? frozen : undefined),
      }
      const proof = await proofOf({
        label: name,
        place,
        pack: {
          ...lasting,
          ...(days.packedOn === undefined ? {} : { packedOn: days.packedOn }),
          ...(days.frozenOn === undefined ? {} : { frozenOn: days.frozenOn }),
        },
        batch: from,
        packing,
      })
      if (proof.recipe !== approval.recipe)
        throw refuse(409, `is of recipe ${proof.recipe}; label ${name} is approved for ${approval.recipe}`, 'batch')
      if (!proof.stands)
        throw new Refusal(
          409,
          [
            ...proof.content.changes.map((ch) => ({
              path: 'label',
              message: `${ch.field} is no longer as approved: ${ch.before ?? 'nothing'} → ${ch.now ?? 'nothing'}`,
            })),
            ...proof.blocks
              .filter((b) => b.settled === undefined)
              .map((b) => ({ path: 'label', message: `${b.what}; would settle it: ${b.settle}` })),
          ],
          { changes: proof.content.changes },
        )
      if (file.endsWith('.svg')) {
        const { labelSvg } = await import('../paper/label-draw.ts')
        return c.body(labelSvg(proof.drawn), 200, { 'content-type': 'image/svg+xml; charset=utf-8' })
      }
      return c.body(await pdfOf(proof, how, true, laid), 200, {
        'content-type': 'application/pdf',
        'content-disposition': `inline; filename="label-${safeName(name)}-${place}.pdf"`,
      })
    })
}
