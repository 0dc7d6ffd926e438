import { jurisdictions } from '@forcemeat/craft/recipe/schema'
import { workOutPlan, type SheetLine } from '../../state/batch-plan.ts'
import { inScreenUnits, mass, toWeigh } from '../../ui/figures.ts'
import { materialName } from '../../ui/material-field.tsx'
import { CureCaution } from '../../ui/cure-caution.tsx'
import { RecipeCautions } from '../../ui/recipe-cautions.tsx'
import { paper } from '../../ui/paper.ts'
import { ScaleFit } from './scale-fit.tsx'
import type { PlanLine } from '../../state/views.ts'
import { VerdictMark } from '../../ui/verdict.tsx'
import type { BatchProps } from './one-batch.tsx'
import { WeighLine } from './weigh-line.tsx'

/** Weight recorded of a line, kg; undefined while nothing is. */
function weighedOf(b: BatchProps['batch'], line: string): number | undefined {
  const parts = b.weighings.filter((w) => w.line === line)
  return parts.length === 0 ? undefined : parts.reduce((s, w) => s + w.kg, 0)
}

/** The weigh sheet, line by line: target, lot, scale, and the weight as it was. */
export function Weigh({ batch: b, kitchen }: BatchProps) {
  const worked = workOutPlan({
    recipe: b.recipeBody,
    meatKg: b.meatKg,
    lines: b.lines.map((l) => ({
      material: l.material,
      // What was weighed is judged; until then the target.
      kg: weighedOf(b, l.line) ?? l.targetKg,
      ...(l.lot ? { lot: l.lot } : {}),
      ...(l.scale ? { scale: l.scale } : {}),
    })),
    lots: b.lots,
    instruments: kitchen.instruments,
    on: b.on,
    jurisdictions: jurisdictions.filter((j) => b.jurisdictions.includes(j)),
  })
  const sheetFor: readonly (SheetLine | undefined)[] = 'sheetFor' in worked ? worked.sheetFor : []
  const done = b.lines.filter((l) => b.weighings.some((w) => w.line === l.line)).length
  return (
    <>
      <div class="head-line">
        <p class="figure-line" role="status">
          {done} of {b.lines.length} lines weighed
        </p>
        <a
          class="button"
          href={paper(`batch-sheet/${encodeURIComponent(b.batch)}`)}
          target="_blank"
          rel="noreferrer"
          aria-label={`Print the batch sheet of ${b.batch}`}
        >
          Print the sheet
        </a>
      </div>
      <p class="hint">
        Type each weight with its unit, as the scale shows it: 25.3 g, 4 kg, 9 lb 2 oz. It counts once its entry number
        shows.
      </p>
      <RecipeCautions recipe={b.recipeBody} lines={b.lines} />
      {b.lines.map((line, i) => {
        const weighed = b.weighings.filter((w) => w.line === line.line)
        const balance = b.massBalance?.lines.find((l) => l.line === line.line)
        return (
          <section key={line.line} class="weigh" aria-label={`Line ${line.line}, ${materialName(line.material)}`}>
            <div class="weigh-head">
              <h2 class="first">{materialName(line.material)}</h2>
              <p class="target">
                {toWeigh(line.targetKg)}
                <span class="where"> {line.lot ? `lot ${line.lot}` : 'no lot named'}</span>
              </p>
            </div>
            {sheetFor[i] &&
              (weighed.length > 0 && sheetFor[i].misses ? (
                <CureMissed line={line} sheet={sheetFor[i]} />
              ) : (
                <ScaleFit line={sheetFor[i]} />
              ))}
            <CureCaution material={line.material} />
            {weighed.map((w) => (
              <p key={w.seq} class="weighed">
                <strong>{toWeigh(w.kg)}</strong> weighed{w.instrument ? ` on ${w.instrument}` : ''}
                {w.lot && w.lot !== line.lot ? `, lot ${w.lot}` : ''}, <a href={`/record/${w.seq}`}>entry {w.seq}</a>,{' '}
                <a href={`/record/${w.seq}/correct`}>correct it</a>
              </p>
            ))}
            {weighed.length > 0 && <OffTarget line={line} kg={weighedOf(b, line.line)!} sheet={sheetFor[i]} />}
            {weighed.length > 1 && balance && <p>In all {toWeigh(balance.kg)}.</p>}
            <WeighLine
              batch={b.batch}
              on={b.on}
              line={line}
              instruments={kitchen.instruments}
              sheet={sheetFor[i]}
              beforeKg={weighedOf(b, line.line) ?? 0}
              again={weighed.length > 0}
            />
          </section>
        )
      })}
    </>
  )
}

/** A cure that was weighed out of the band of the batch: what to do with it stands where the hand is. */
function CureMissed({ line, sheet }: { line: PlanLine; sheet: SheetLine }) {
  const room =
    sheet.lowG === undefined || sheet.highG === undefined
      ? ''
      : `, ${mass(sheet.lowG / 1000, 4)} to ${mass(sheet.highG / 1000, 4)} allowed`
  return (
    <p class="fit">
      <VerdictMark verdict="fail" label={sheet.misses === 'high' ? 'Too much nitrite' : 'Too little nitrite'} />
      {inScreenUnits(sheet.because)}. Wanted: {toWeigh(line.targetKg)}
      {room}.{' '}
      <strong>
        {sheet.misses === 'high'
          ? 'Do not put it in the mix: weigh it again. If it is in, hold the batch.'
          : 'Weigh what is missing, or hold the batch.'}
      </strong>
    </p>
  )
}

/** How far what was weighed lies from its target, where that is more than the line allows. */
function OffTarget({ line, kg, sheet }: { line: PlanLine; kg: number; sheet: SheetLine | undefined }) {
  const off = kg - line.targetKg
  if (!sheet?.toleranceG || Math.abs(off) * 1000 <= sheet.toleranceG) return null
  return (
    <p>
      <VerdictMark verdict="cannot-tell" label="Off target" /> {mass(Math.abs(off))} {off > 0 ? 'over' : 'under'} the
      target of {toWeigh(line.targetKg)}; ± {mass(sheet.toleranceG / 1000)} allowed.
    </p>
  )
}
