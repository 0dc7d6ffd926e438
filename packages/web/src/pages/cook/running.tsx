import { useEffect, useMemo } from 'preact/hooks'
import { signal } from '@preact/signals'
import { get } from '../../api.ts'
import { feedNews } from '../../state/live.ts'
import { useResource } from '../../state/resource.ts'
import type { BatchView } from '../../state/views.ts'
import { percent, temperature } from '../../ui/figures.ts'

type OpenFeed = {
  readonly batch: string
  readonly count: number
  readonly last?: { readonly channel: string; readonly tempC?: number; readonly rhPct?: number }
}

/** Batches that cook or chill now, and those that could be followed. */
export function Running({ batch }: { batch: string }) {
  const feeds = useMemo(() => signal<readonly OpenFeed[]>([]), [])
  const batches = useResource<{ batches: readonly BatchView[] }>('/api/batches?limit=30').value
  const news = feedNews.value
  useEffect(() => {
    get<{ feeds: readonly OpenFeed[] }>('/api/feed').then(
      (answer) => (feeds.value = answer.feeds),
      () => undefined,
    )
  }, [news])
  const waiting = (batches.value?.batches ?? []).filter(
    (b) =>
      b.recipeKind === 'cooked' &&
      ['planned', 'weighing', 'made', 'held'].includes(b.state) &&
      !feeds.value.some((f) => f.batch === b.batch),
  )
  const shown = batch ? waiting.filter((b) => b.batch === batch) : waiting.slice(0, 6)
  if (feeds.value.length === 0 && shown.length === 0) return null
  return (
    <section>
      <h2>While it runs</h2>
      <ul class="entries">
        {feeds.value.map((f) => (
          <li key={f.batch}>
            <a class="lead" href={`/curves/live/${encodeURIComponent(f.batch)}`}>
              {f.batch} runs
            </a>{' '}
            <span class="where">
              {f.count} readings
              {f.last && (
                <>
                  , {f.last.channel} {f.last.rhPct === undefined ? temperature(f.last.tempC) : percent(f.last.rhPct)}
                </>
              )}
            </span>
          </li>
        ))}
        {shown.map((b) => (
          <li key={b.batch}>
            <a class="lead" href={`/curves/live/${encodeURIComponent(b.batch)}`}>
              Follow {b.batch}
            </a>{' '}
            <span class="where">{b.recipeName}</span>
          </li>
        ))}
      </ul>
    </section>
  )
}
