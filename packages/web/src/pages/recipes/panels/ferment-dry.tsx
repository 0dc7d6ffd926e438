import { useMemo } from 'preact/hooks'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { hoursAllowed } from '@forcemeat/rulebook/ferment/hours-allowed'
import type { Worked } from '../../../state/recipe-bench.ts'
import { mass, number, percent, pricePerMass, temperature } from '../../../ui/figures.ts'
import { Sheet } from '../../../ui/sheet.tsx'
import { FindingRow } from '../../../ui/verdict.tsx'
import { placeName } from '../../../ui/words.ts'
import { Working } from '../../../ui/working.tsx'
import { PlannedDrying } from './planned-drying.tsx'
import { Panel, Told } from './panel.tsx'

type Props = { recipe: Recipe; worked: Worked; stale: boolean }
type Acid = NonNullable<Worked['fermentDry']['acid']>

const ph = (x: number): string => number(x, 3)
/** What is not said by the figures above it. */
const ofPlan = /^dry\.plan\./

function headline({ recipe, worked }: Props): string {
  const { acid, drying } = worked.fermentDry
  return [
    ...(acid?.known ? [`end pH ${ph(acid.endPh.low)} to ${ph(acid.endPh.high)} for ${ph(acid.targetPh)}`] : []),
    ...(acid && !acid.known ? [acid.because] : []),
    ...(drying?.known ? [`${percent(recipe.dry?.lossPct)} to lose`] : []),
    ...(drying && !drying.known && drying.because !== (acid && !acid.known ? acid.because : '')
      ? [drying.because]
      : []),
  ].join('; ')
}

/** What the recipe's own figures say of its souring and drying, before anything is made; nothing of it releases a batch. */
export function FermentDryPanel(props: Props) {
  const { recipe, worked, stale } = props
  const { acid, drying } = worked.fermentDry
  if (recipe.kind !== 'fermented' && recipe.kind !== 'dried' && !recipe.ferment && !recipe.dry) return null
  const told = worked.findings.filter((f) => ofPlan.test(f.rule))
  const { totals, cost } = worked.computed
  return (
    <Panel title="Ferment and dry" headline={headline(props)}>
      {acid === undefined && drying === undefined && (
        <p class="empty">Say the pH to reach under Fermentation, or the loss of weight under Drying.</p>
      )}
      {acid && <EndPh acid={acid} />}
      {recipe.ferment && <Hours stages={recipe.ferment.stages ?? []} />}
      {drying?.known && <PlannedDrying name={recipe.name} drying={drying} stale={stale} />}
      {drying && !drying.known && (
        <>
          <h3>Drying</h3>
          <p class="empty">
            No course can be reckoned: {drying.because}. It takes {drying.settle}.
          </p>
        </>
      )}
      {totals.finishedKg !== undefined && (
        <>
          <h3>Yield and cost</h3>
          <Told
            rows={[
              ['Finished', `${mass(totals.finishedKg)}, ${percent(100 - (totals.lossPct ?? 0))} of the mix`],
              [
                'Materials of a finished kilogram',
                cost.perKgFinished === undefined ? 'some part has no price' : pricePerMass(cost.perKgFinished),
              ],
            ]}
          />
          <p class="hint">With labour and the rest: under Cost.</p>
        </>
      )}
      {told.length > 0 && (
        <>
          <h3>Targets and storage</h3>
          <ul class="findings">
            {told.map((f) => (
              <FindingRow key={f.rule + f.because} finding={f} />
            ))}
          </ul>
        </>
      )}
    </Panel>
  )
}

function EndPh({ acid }: { acid: Acid }) {
  if (!acid.known)
    return (
      <>
        <h3>End pH</h3>
        <p class="empty">
          No end pH can be given: {acid.because}. It takes {acid.settle}.
        </p>
      </>
    )
  const { endPh, sugars, asked } = acid
  return (
    <>
      <h3>End pH, a band</h3>
      <Told
        rows={[
          ['Lowest', ph(endPh.low)],
          ['Likely', ph(endPh.likely)],
          ['Highest', ph(endPh.high)],
          ['To be ended at', ph(acid.targetPh)],
          ...sugars.map((s) => [`Sugar of ${s.name}`, `${percent(s.pct)} of the mix`] as const),
          ...((asked.gdlPct ?? 0) > 0
            ? ([['Glucono-delta-lactone', `${percent(asked.gdlPct)} of the mix`]] as const)
            : []),
          ['Lean, the fat of the meat left out', `${percent(asked.leanPct)} of the mix`],
        ]}
      />
      <Working figure="Working" steps={acid.working}>
        <Sheet
          caption="What the band rests on"
          rows={acid.evidence}
          rowKey={(e) => e.says}
          columns={[
            { head: 'It says', names: true, cell: (e) => e.says },
            { head: 'Source', cell: (e) => e.source },
            { head: 'Read as', cell: (e) => e.mark },
          ]}
        />
      </Working>
      {acid.warnings.map((w) => (
        <p class="hint" key={w}>
          {w}.
        </p>
      ))}
    </>
  )
}

function Hours({ stages }: { stages: NonNullable<NonNullable<Recipe['ferment']>['stages']> }) {
  const allowed = useMemo(() => hoursAllowed(stages), [stages])
  return (
    <>
      <h3>Hours to pH 5.3</h3>
      {allowed.length === 0 ? (
        <p class="empty">Add a fermentation stage: the hours allowed follow from its temperature.</p>
      ) : (
        <Sheet
          caption={`Hours allowed by degree-hours, warmest stage ${temperature(allowed[0]!.highestC)}`}
          rows={allowed}
          rowKey={(a) => a.rule}
          columns={[
            { head: 'System', names: true, cell: (a) => placeName(a.jurisdiction) },
            {
              head: 'At the warmest stage',
              num: true,
              cell: (a) =>
                a.hoursAtHighest === undefined
                  ? 'not counted'
                  : `${a.limitIncluded ? 'at most' : 'less than'} ${number(a.hoursAtHighest, 3)} h`,
            },
            { head: 'Limit', num: true, cell: (a) => `${number(a.limit)} ${a.unit}` },
            { head: 'The whole plan takes', num: true, cell: (a) => `${number(a.planned, 4)} ${a.unit}` },
            {
              head: 'Used up',
              num: true,
              cell: (a) => (a.usedUpAtHour === undefined ? 'not in the plan' : `hour ${number(a.usedUpAtHour, 3)}`),
            },
            {
              head: 'Read as',
              cell: (a) => a.source.mark,
            },
          ]}
        />
      )}
    </>
  )
}
