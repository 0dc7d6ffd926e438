import { jurisdictions } from '@forcemeat/craft/recipe/schema'
import { workOutPlan, type SheetLine } from '../../state/batch-plan.ts'
import { mass } from '../../ui/figures.ts'
import { materialName } from '../../ui/material-field.tsx'
import { CureCaution } from '../../ui/cure-caution.tsx'
import { ScaleFit } from './scale-fit.tsx'
import type { BatchProps } from './one-batch.tsx'
import { WeighLine } from './weigh-line.tsx'

/** The weigh sheet, line by line: target, lot, scale, and the weight as it was. */
export function Weigh({ batch: b, kitchen }: BatchProps) {
  const worked = workOutPlan({
    recipe: b.recipeBody,
    meatKg: b.meatKg,
    lines: b.lines.map((l) => ({
      material: l.material,
      kg: l.targetKg,
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
      <p class="figure-line" role="status">
        {done} of {b.lines.length} lines weighed
      </p>
      <p class="hint">
        Type each weight with its unit, as the scale shows it: 25.3 g, 4 kg, 9 lb 2 oz. It counts once its entry number
        shows.
      </p>
      {b.lines.map((line, i) => {
        const weighed = b.weighings.filter((w) => w.line === line.line)
        const balance = b.massBalance?.lines.find((l) => l.line === line.line)
        return (
          <section key={line.line} class="weigh" aria-label={`Line ${line.line}, ${materialName(line.material)}`}>
            <div class="weigh-head">
              <h2 class="first">{materialName(line.material)}</h2>
              <p class="target">
                {mass(line.targetKg, 5)}
                <span class="where"> {line.lot ? `lot ${line.lot}` : 'no lot named'}</span>
              </p>
            </div>
            {sheetFor[i] && <ScaleFit line={sheetFor[i]} />}
            <CureCaution material={line.material} />
            {weighed.map((w) => (
              <p key={w.seq} class="weighed">
                <strong>{mass(w.kg, 5)}</strong> weighed{w.instrument ? ` on ${w.instrument}` : ''}
                {w.lot && w.lot !== line.lot ? `, lot ${w.lot}` : ''}, <a href={`/record/${w.seq}`}>entry {w.seq}</a>,{' '}
                <a href={`/record/${w.seq}/correct`}>correct it</a>
              </p>
            ))}
            {weighed.length > 1 && balance && <p>In all {mass(balance.kg, 5)}.</p>}
            <WeighLine batch={b.batch} line={line} instruments={kitchen.instruments} again={weighed.length > 0} />
          </section>
        )
      })}
    </>
  )
}
