import type { ComponentChildren } from 'preact'
import type { Worked } from '../../state/recipe-bench.ts'
import { mass, money, number, percent, pricePerMass } from '../../ui/figures.ts'
import { materialName } from '../../ui/material-field.tsx'
import { Findings, VerdictMark } from '../../ui/verdict.tsx'
import { Working } from '../../ui/working.tsx'
import { placeName } from '../../ui/words.ts'

/** What the recipe comes to: composition, cure, cost, and what the rules of each place say. */
export function Figures({ worked, stale }: { worked: Worked; stale: boolean }) {
  const { computed: c, findings, places } = worked
  return (
    <div class={stale ? 'stale' : undefined}>
      <h2>Composition of the raw mix</h2>
      <table>
        <tbody>
          <Row head="Fat">{withSpread(c.composition.fatPct, c.fatSdPct)}</Row>
          <Row head="Protein">{percent(c.composition.proteinPct)}</Row>
          <Row head="Water">{percent(c.composition.waterPct)}</Row>
          <Row head="Collagen">{percent(c.composition.collagenPct)}</Row>
          <Row head="Added water">{percent(c.addedWaterPct)}</Row>
          <Row head="Salt, of the mix">{percent(c.cure.addedSaltPctOfTotal)}</Row>
          <Row head="Salt, of the meat">{percent(c.cure.addedSaltPctOfMeat)}</Row>
          <Row head="Binders">{percent(c.binderPct)}</Row>
          <Row head="Whole mix">{mass(c.totals.totalKg)}</Row>
          {c.totals.finishedKg !== undefined && (
            <Row head={`Finished, ${percent(c.totals.lossPct)} lost`}>{mass(c.totals.finishedKg)}</Row>
          )}
        </tbody>
      </table>
      {c.unknown.map((u) => (
        <p class="hint" key={u.component}>
          {u.component.replace(/Pct$/, '')} is not known: no figure for {u.materials.map(materialName).join(', ')}.
        </p>
      ))}
      <h2>Cure</h2>
      {c.cure.known ? (
        <Working
          figure={
            <>
              ingoing nitrite {number(c.cure.nitritePpm, 4)} ppm, nitrate {number(c.cure.nitratePpm, 4)} ppm of the meat
              block
            </>
          }
          steps={c.cure.working}
        >
          <p class="hint">
            As ion: nitrite {number(c.cure.nitriteIonPpm, 4)} ppm, nitrate {number(c.cure.nitrateIonPpm, 4)} ppm.
            Erythorbate {number(c.cure.erythorbatePpm, 4)} ppm, ascorbate {number(c.cure.ascorbatePpm, 4)} ppm. Salt
            that comes with the cure: {mass(c.cure.saltFromCureKg)}.
          </p>
        </Working>
      ) : (
        <p>
          <VerdictMark verdict="cannot-tell" /> {c.cure.because}
        </p>
      )}
      <h2>Cost</h2>
      {c.cost.total === undefined ? (
        <p>
          {c.cost.knownTotal > 0 ? `${money(c.cost.knownTotal)} for what has a price.` : 'No price is known.'} No price
          for {c.cost.unpriced.map(materialName).join(', ')}: receive a lot with its price.
        </p>
      ) : (
        <p>
          {money(c.cost.total)} for the batch; raw {pricePerMass(c.cost.perKgRaw)}
          {c.cost.perKgFinished !== undefined && <>, finished {pricePerMass(c.cost.perKgFinished)}</>}
        </p>
      )}
      {c.notes.map((n) => (
        <p class="hint" key={n}>
          {n}
        </p>
      ))}
      <h2>Where it may be sold</h2>
      <ul class="entries">
        {places.map((p) => (
          <li key={p.jurisdiction}>
            <VerdictMark verdict={p.verdict} /> <strong>{placeName(p.jurisdiction)}</strong>
            <p>{p.says}</p>
            {p.change.map((line) => (
              <p class="hint" key={line}>
                To change: {line}
              </p>
            ))}
          </li>
        ))}
      </ul>
      <h2>Findings</h2>
      <Findings findings={findings} />
    </div>
  )
}

const withSpread = (x: number | undefined, sd: number | undefined): string =>
  sd === undefined || x === undefined ? percent(x) : `${percent(x)} ± ${percent(sd, 2)}`

function Row({ head, children }: { head: string; children: ComponentChildren }) {
  return (
    <tr>
      <th scope="row" class="names">
        {head}
      </th>
      <td class="num">{children}</td>
    </tr>
  )
}
