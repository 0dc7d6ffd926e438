import { casingKinds } from '@forcemeat/craft/stuff/data/casings'
import type { RecipeWork } from '@forcemeat/craft/recipe/work/work'
import type { Form } from '../../../state/form.ts'
import { FormChoice, FormQuantity } from '../../../ui/form.tsx'
import { length, mass, number } from '../../../ui/figures.ts'
import { Working } from '../../../ui/working.tsx'
import { NumberField } from './number-field.tsx'
import { Panel, Told } from './panel.tsx'

const metres = (m: number): string => `${number(m, 3)} m`
const grams = (g: number | undefined): string => (g === undefined ? '–' : `${number(g, 4)} g`)
const kinds = [
  { value: '', label: 'any kind of the calibre' },
  ...casingKinds.map((k) => ({ value: k, label: k.replaceAll('-', ' ') })),
]

/** Casing to lay out, links, what the last one holds, and the fill that meets the pack's net weight. */
export function CasingPanel({ form, casing }: { form: Form; casing: RecipeWork['casing'] }) {
  return (
    <Panel title="Casing and links" headline={casing.because}>
      <div class="row top">
        <FormChoice form={form} name="bench.stuff.kind" label="Kind of casing" options={kinds} />
        <NumberField form={form} name="bench.stuff.pieceM" label="Length of one piece" unit="m" above={0} max={1000} />
        <FormQuantity
          form={form}
          name="bench.stuff.packNetG"
          kind="mass"
          unit="g"
          label="Net weight of a pack"
          hint="The links are then filled so that the pack holds it after the loss."
        />
        <NumberField
          form={form}
          name="bench.stuff.linksPerPack"
          label="Links in a pack"
          unit="links"
          min={1}
          max={1000}
        />
      </div>
      {casing.known ? (
        <>
          <Told
            rows={[
              [
                'Casing to lay out',
                casing.basis === 'given'
                  ? metres(casing.metres)
                  : `${metres(casing.metres)}, ${metres(casing.metresLow)} to ${metres(casing.metresHigh)}`,
              ],
              ...(casing.pieces === undefined
                ? []
                : ([
                    ['Pieces', `${casing.pieces} to ${casing.piecesHigh ?? casing.pieces}`],
                    ['The last one holds', `${mass(casing.lastPieceKg)} in ${metres(casing.lastPieceM ?? 0)}`],
                  ] as const)),
              ...(casing.fillG === undefined
                ? []
                : ([
                    ['Fill of a link', grams(casing.fillG)],
                    ['Length of a link', length(casing.linkMm)],
                    ['A finished link', grams(casing.finishedG)],
                    ['Links', number(casing.links)],
                    ['Mix left over', mass(casing.leftoverKg)],
                  ] as const)),
              ...(casing.packs === undefined
                ? []
                : ([
                    ['Packs', number(casing.packs)],
                    ['A pack holds, finished', grams(casing.packFinishedG)],
                  ] as const)),
              [
                'A metre holds',
                `${number(casing.kgPerM, 3)} kg, ${number(casing.kgPerMLow, 3)} to ${number(casing.kgPerMHigh, 3)}`,
              ],
            ]}
          />
          {casing.soak && (
            <p>
              <strong>Soak:</strong> {casing.soak}
            </p>
          )}
          <p class="hint">
            {casing.note} Source: {casing.source}.
          </p>
          <Working figure="Working" steps={casing.working} />
        </>
      ) : (
        <p class="hint">Say the calibre under Casing above.</p>
      )}
    </Panel>
  )
}
