import { InvalidInput } from '@forcemeat/craft/calculation'
import type { SharedOutput } from '@forcemeat/craft/blend/schema'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import type { Form } from '../../../state/form.ts'
import { readerOf } from '../../../state/reader.ts'
import { useResource } from '../../../state/resource.ts'
import { sharedRequest, type Sharing } from '../../../state/shared-blend.ts'
import { solving } from '../../../state/solver.ts'
import type { LotView, RecipeListed } from '../../../state/views.ts'
import { FormQuantity } from '../../../ui/form.tsx'
import { mass, money, percent, pricePerMass } from '../../../ui/figures.ts'
import { Sheet } from '../../../ui/sheet.tsx'
import { VerdictMark } from '../../../ui/verdict.tsx'
import { Clash, Worths } from './blend-answer.tsx'
import { Panel } from './panel.tsx'

type Props = { form: Form; recipe: Recipe; meatKg: number; lots: readonly LotView[] }
type Asked = { readonly out?: SharedOutput; readonly fault?: string; readonly notes?: readonly string[] }

function ask({ form, recipe, meatKg, lots }: Props, others: readonly RecipeListed[]): Asked {
  const r = readerOf(form.values.value)
  const also = others.flatMap((o): Sharing[] => {
    const kg = r.quantity(`bench.shared.${o.recipe}`, 'mass')
    return kg !== undefined && kg > 0 ? [{ id: o.body.name, recipe: o.body, meatKg: kg }] : []
  })
  if (r.faults.length > 0) return { fault: r.faults.map((f) => f.message).join('; ') }
  if (also.length === 0) return {}
  const { input, notes } = sharedRequest(
    [{ id: 'this batch', recipe, meatKg }, ...also],
    lots,
    r.number('bench.blend.confidence'),
  )
  try {
    return { out: solving.value!.solveShared(input), notes }
  } catch (error) {
    if (error instanceof InvalidInput) return { fault: error.faults.map((f) => `${f.path} ${f.message}`).join('; ') }
    throw error
  }
}

/** Several batches from the same lots: the cheapest for all together. */
export function Shared(props: Props) {
  const { form, lots } = props
  const others = useResource<{ recipes: readonly RecipeListed[] }>('/api/recipes').value.value?.recipes ?? []
  const { out, fault, notes } = ask(props, others)
  return (
    <Panel title="Several batches from the same lots">
      <p class="hint">Meat block of each batch to be made beside this one; empty: not made.</p>
      <div class="row top">
        {others.map((o) => (
          <FormQuantity key={o.recipe} form={form} name={`bench.shared.${o.recipe}`} kind="mass" label={o.body.name} />
        ))}
      </div>
      {fault && <p class="fault">{fault}</p>}
      {out && out.status !== 'optimal' && <Clash out={out} />}
      {out?.status === 'optimal' && (
        <>
          <p>
            <VerdictMark verdict="pass" label="Every limit of every batch holds" /> {money(out.totalCost)} for all of
            the meat.
          </p>
          <Sheet
            caption="Lots by batch"
            rows={out.batches.flatMap((b) =>
              b.lines.filter((l) => l.kg > 0 && !l.id.startsWith('+ ')).map((l) => ({ b, l })),
            )}
            rowKey={({ b, l }) => b.id + l.id}
            columns={[
              { head: 'Batch', names: true, cell: ({ b }) => b.id },
              { head: 'Lot', keep: true, cell: ({ l }) => l.id },
              { head: 'Weight', num: true, cell: ({ l }) => mass(l.kg) },
              { head: 'Fat of the batch', num: true, cell: ({ b }) => percent(b.composition?.fatPct) },
              { head: 'Its cost', num: true, cell: ({ b }) => pricePerMass(b.costPerKg) },
            ]}
          />
          <Worths prices={out.prices.filter((p) => p.side !== 'batch')} lots={lots} />
        </>
      )}
      {notes?.map((n) => (
        <p class="hint" key={n}>
          {n}
        </p>
      ))}
    </Panel>
  )
}
