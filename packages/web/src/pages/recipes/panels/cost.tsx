import { useMemo } from 'preact/hooks'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { costOverTime } from '@forcemeat/craft/recipe/work/cost-over-time'
import type { RecipeWork } from '@forcemeat/craft/recipe/work/work'
import type { Form } from '../../../state/form.ts'
import type { LotView } from '../../../state/views.ts'
import { FormQuantity } from '../../../ui/form.tsx'
import { day, mass, money, number, percent, pricePerMass } from '../../../ui/figures.ts'
import { materialName } from '../../../ui/material-field.tsx'
import { Sheet } from '../../../ui/sheet.tsx'
import { Working } from '../../../ui/working.tsx'
import type { Selling } from '../prices.ts'
import { NumberField } from './number-field.tsx'
import { Panel, Told } from './panel.tsx'

type Cost = Extract<RecipeWork['cost'], { known: true }>

const fields = [
  ['minutes', 'Labour', 'min', 1e7],
  ['people', 'People at it', '', 1000],
  ['ratePerHour', 'An hour of one costs', '', 1e9],
  ['otherCost', 'Gas, cleaning and the like, a batch', '', 1e9],
  ['overheadPct', 'Overhead on all of it', '%', 1000],
  ['casingPerM', 'A metre of casing costs', '', 1e9],
  ['packCostEach', 'The packing of a pack costs', '', 1e9],
  ['packPriceEach', 'A pack sells at', '', 1e9],
] as const

/** What a kilogram, a link and a pack cost, which line moves it most, and what the price lists did to it. */
export function CostPanel({
  form,
  recipe,
  cost,
  meatKg,
  lots,
  sells,
}: {
  form: Form
  recipe: Recipe
  cost: RecipeWork['cost']
  meatKg: number
  lots: readonly LotView[]
  sells: Selling | undefined
}) {
  return (
    <Panel
      title="Cost"
      headline={
        cost.known
          ? `raw ${pricePerMass(cost.perKgRaw)}, finished ${pricePerMass(cost.perKgFinished)}`
          : `not known: no price for ${cost.unpriced.map(materialName).join(', ')}`
      }
    >
      <div class="row top">
        {fields.map(([name, label, unit, max]) => (
          <NumberField
            key={name}
            form={form}
            name={`bench.cost.${name}`}
            label={label}
            max={max}
            {...(name === 'people' ? { above: 0 } : {})}
            {...(unit ? { unit } : {})}
          />
        ))}
        <FormQuantity
          form={form}
          name="bench.cost.stuffingLossPct"
          kind="percent"
          label="Stays in grinder and stuffer"
        />
        <FormQuantity form={form} name="bench.cost.trimLossPct" kind="percent" label="Ends and give-away" />
      </div>
      {cost.known && <Known cost={cost} />}
      <Sells sells={sells} cost={cost} packing={form.values.value['bench.cost.packCostEach'] ?? ''} />
      <OverTime recipe={recipe} meatKg={meatKg} lots={lots} />
    </Panel>
  )
}

/** The selling price in force today and what it leaves; packing is counted with the pack, not with the kilogram. */
function Sells({ sells, cost, packing }: { sells: Selling | undefined; cost: RecipeWork['cost']; packing: string }) {
  if (!sells)
    return (
      <p class="hint">
        No selling price of this recipe is in force today. <a href="/plan/prices">Prices</a> is where one is set.
      </p>
    )
  const { marginPerKg, marginPct } = cost.known ? cost : {}
  return (
    <p>
      Sells at {pricePerMass(sells.pricePerKg)} (<a href={`/record/${sells.seq}`}>entry {sells.seq}</a>, from{' '}
      {day(sells.from)}).{' '}
      {marginPerKg === undefined || marginPct === undefined ? (
        'What that leaves cannot be told until every part has a price.'
      ) : (
        <>
          <strong>
            {marginPerKg < 0 ? 'Sold at a loss: ' : 'Leaves '}
            {pricePerMass(marginPerKg)}
          </strong>
          , {percent(marginPct)} of the price{packing.trim() === '' ? '' : ', packing not counted'}.
        </>
      )}
    </p>
  )
}

function Known({ cost }: { cost: Cost }) {
  return (
    <>
      <Told
        rows={[
          ['The batch', money(cost.total)],
          ['Materials alone', pricePerMass(cost.materialsPerKgRaw)],
          ['Raw', pricePerMass(cost.perKgRaw)],
          ['Finished', pricePerMass(cost.perKgFinished)],
          ...(cost.perLink === undefined ? [] : ([[`A link, of ${number(cost.links)}`, money(cost.perLink)]] as const)),
          ...(cost.perPack === undefined ? [] : ([[`A pack, of ${number(cost.packs)}`, money(cost.perPack)]] as const)),
          ['Yield', `${mass(cost.finishedKg)}, ${percent(cost.yieldPct)} of the mix`],
          ...(cost.marginPerPackPct === undefined
            ? []
            : ([['Left of a pack’s price', percent(cost.marginPerPackPct)]] as const)),
        ]}
      />
      <Working figure="Working" steps={cost.working} />
      <h3>What moves it most</h3>
      <Sheet
        caption="What each line adds to a finished kilogram"
        rows={cost.moves.slice(0, 8)}
        rowKey={(m) => m.of + m.change}
        columns={[
          { head: 'Line', names: true, cell: (m) => m.of },
          { head: 'If', cell: (m) => m.change },
          { head: 'Adds', num: true, cell: (m) => pricePerMass(m.perKgFinished) },
        ]}
      />
    </>
  )
}

/** Prices as the lots in the record brought them; water costs nothing from the first day. */
function OverTime({ recipe, meatKg, lots }: { recipe: Recipe; meatKg: number; lots: readonly LotView[] }) {
  const days = useMemo(() => {
    const prices = lots.flatMap((l) =>
      l.costPerKg === undefined ? [] : [{ material: l.material, costPerKg: l.costPerKg, on: l.on }],
    )
    return prices.length === 0 ? [] : costOverTime({ recipe, meatKg, prices }).days
  }, [recipe, meatKg, lots])
  if (days.length === 0) return null
  return (
    <>
      <h3>By the price lists</h3>
      <Sheet
        caption="Materials of a kilogram over time"
        rows={days.toReversed().slice(0, 12)}
        rowKey={(d) => d.on}
        columns={[
          { head: 'From', names: true, keep: true, cell: (d) => day(d.on) },
          { head: 'Raw', num: true, cell: (d) => pricePerMass(d.perKgRaw) },
          {
            head: 'What changed',
            cell: (d) =>
              d.changes
                .slice(0, 3)
                .map(
                  (c) =>
                    `${materialName(c.material)} ${c.before === undefined ? '' : `${money(c.before)} to `}${money(c.after)}`,
                )
                .join('; '),
          },
        ]}
      />
    </>
  )
}
