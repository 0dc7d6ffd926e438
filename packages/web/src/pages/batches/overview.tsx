import { CurveList } from './batch-curves.tsx'
import { mass, percent } from '../../ui/figures.ts'
import { paper, paperSize } from '../../ui/paper.ts'
import { withNames } from '../../ui/material-field.tsx'
import { Overall } from '../../ui/overall.tsx'
import { placeName } from '../../ui/words.ts'
import type { BatchProps } from './one-batch.tsx'

/** Where the batch stands, what it waits for, and its papers. */
export function Overview({ batch: b }: BatchProps) {
  const base = `/batches/${encodeURIComponent(b.batch)}`
  const size = paperSize()
  const balance = b.massBalance
  return (
    <div class="two">
      <div>
        <h2 class="first">Waits for</h2>
        {b.waitsFor.length === 0 ? (
          <p>{b.doubt ? 'A decision on what is in doubt.' : 'Nothing.'}</p>
        ) : (
          <ol class="waits">
            {b.waitsFor.map((w) => (
              <li key={w}>
                <a href={whereTo(base, w, b.batch)}>{withNames(w)}</a>
              </li>
            ))}
          </ol>
        )}
        <h2>As the rules see it now</h2>
        <p>
          {b.verdict ? <Overall verdict={b.verdict} findings={b.findings ?? []} /> : null}{' '}
          <a href={`${base}/decide`}>Open the findings</a>
        </p>
        <p class="where">Judged for {b.jurisdictions.map(placeName).join(', ')}.</p>
        {balance && (
          <>
            <h2>Weight in and out</h2>
            <dl class="facts">
              <dt>Planned</dt>
              <dd>{mass(balance.plannedKg)}</dd>
              <dt>Weighed in</dt>
              <dd>{mass(balance.inKg)}</dd>
              <dt>Packed</dt>
              <dd>
                {mass(balance.packedKg)}{' '}
                {balance.yieldPct !== undefined && <>({percent(balance.yieldPct)} of what went in)</>}
              </dd>
              <dt>Sent out</dt>
              <dd>{mass(balance.shippedKg)}</dd>
            </dl>
          </>
        )}
      </div>
      <div>
        <h2 class="first">Papers</h2>
        <ul class="entries">
          <li>
            <a class="lead" href={paper(`batch-sheet/${encodeURIComponent(b.batch)}`)} target="_blank" rel="noreferrer">
              Batch sheet ({size})
            </a>
          </li>
          <li>
            <a
              class="lead"
              href={paper(`cook-and-chill/${encodeURIComponent(b.batch)}`)}
              target="_blank"
              rel="noreferrer"
            >
              Cook and chill record ({size})
            </a>
          </li>
          {(b.recipeKind === 'fermented' || b.recipeKind === 'dried') && (
            <li>
              <a
                class="lead"
                href={paper(`drying-record/${encodeURIComponent(b.batch)}`)}
                target="_blank"
                rel="noreferrer"
              >
                Drying record ({size})
              </a>
            </li>
          )}
          {(b.recipeKind === 'fermented' || b.recipeKind === 'dried') && (
            <li>
              <a
                class="lead"
                href={paper(`pork-treatment/${encodeURIComponent(b.batch)}`)}
                target="_blank"
                rel="noreferrer"
              >
                Pork treatment record ({size})
              </a>
            </li>
          )}
        </ul>
        <h2>Curves</h2>
        <CurveList batch={b} />
        <h2>Made from</h2>
        <p>
          <a href={`/recipes/${encodeURIComponent(b.recipe)}/edit?version=${b.version}`}>
            {b.recipeName}, version {b.version}
          </a>
        </p>
        {b.note && <p>{b.note}</p>}
      </div>
    </div>
  )
}

function whereTo(base: string, waits: string, batch: string): string {
  if (waits.startsWith('weighing')) return `${base}/weigh`
  if (waits.includes('curve')) return `/curves?batch=${encodeURIComponent(batch)}`
  if (waits.startsWith('pH') || waits.startsWith('water activity')) return `${base}/measures`
  return waits === 'packing' ? `${base}/packs` : `${base}/decide`
}
