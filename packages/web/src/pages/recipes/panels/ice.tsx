import type { RecipeWork } from '@forcemeat/craft/recipe/work/work'
import type { Form } from '../../../state/form.ts'
import { FormQuantity } from '../../../ui/form.tsx'
import { degrees, mass, temperature } from '../../../ui/figures.ts'
import { FindingRow, VerdictMark } from '../../../ui/verdict.tsx'
import { Working } from '../../../ui/working.tsx'
import { NumberField } from './number-field.tsx'
import { Panel, Told } from './panel.tsx'

type Ice = NonNullable<RecipeWork['ice']>

const headline = (ice: Ice | undefined): string => {
  if (!ice) return 'needs three temperatures'
  if (!ice.known) return ice.because
  return ice.possible
    ? `${mass(ice.iceKg)} of the water as ice ends at ${temperature(ice.finalC)}`
    : ice.iceKg === 0
      ? `none: without any the mix ends at ${temperature(ice.finalC)}`
      : `all of it as ice still ends at ${temperature(ice.finalC)}`
}

/** How much of the water goes in as ice, and what happens if the meat is warmer. */
export function IcePanel({ form, ice }: { form: Form; ice: Ice | undefined }) {
  return (
    <Panel title="Ice" headline={headline(ice)}>
      <div class="row top">
        <FormQuantity form={form} name="bench.ice.meatC" kind="temperature" label="Meat goes in at" allowNegative />
        <FormQuantity form={form} name="bench.ice.waterC" kind="temperature" label="Water from the tap" />
        <FormQuantity
          form={form}
          name="bench.ice.targetC"
          kind="temperature"
          label="The mix is to end at"
          allowNegative
        />
        <FormQuantity
          form={form}
          name="bench.ice.iceC"
          kind="temperature"
          label="Ice comes at"
          allowNegative
          hint="Empty: wet ice at its melting point."
        />
        <NumberField
          form={form}
          name="bench.ice.workKjPerKg"
          label="Work of the knives"
          unit="kJ/kg"
          hint="Empty: none. Mixing gives a few, fine chopping some tens."
          max={1000}
        />
      </div>
      {ice?.known && (
        <>
          <p>
            {!ice.possible && <VerdictMark verdict="cannot-tell" label="Not as asked" />} {ice.because}.
          </p>
          <Told
            rows={[
              ['As ice', mass(ice.iceKg)],
              ['As water', mass(ice.waterKg)],
              ['Ends at', temperature(ice.finalC)],
              [
                `With the meat ${degrees(ice.ifMeatWarmer.byC)} warmer`,
                ice.ifMeatWarmer.possible
                  ? `${mass(ice.ifMeatWarmer.iceKg)} as ice`
                  : `all as ice still ends at ${temperature(ice.ifMeatWarmer.finalC)}`,
              ],
              ['The mix begins to freeze at', temperature(ice.freezingC)],
            ]}
          />
          {ice.leftOut.length > 0 && (
            <p class="hint">Left out of the heat, for want of a composition: {ice.leftOut.join(', ')}.</p>
          )}
          <Working figure="The heat, part by part" steps={ice.working} />
          {ice.findings.length > 0 && (
            <ul class="findings">
              {ice.findings.map((f) => (
                <FindingRow key={f.rule} finding={f} />
              ))}
            </ul>
          )}
          <p class="hint">Heat from the room is not counted: measure the mix in the bowl.</p>
        </>
      )}
    </Panel>
  )
}
