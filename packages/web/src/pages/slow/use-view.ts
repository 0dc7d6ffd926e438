import { signal } from '@preact/signals'
import { useEffect, useMemo } from 'preact/hooks'
import { get, type Refused } from '../../api.ts'
import { feedNews, recordVersion } from '../../state/live.ts'
import type { Resource } from '../../state/resource.ts'

/** What is read of a batch, and read again: an answer that was overtaken by a newer one is left out, and none after the page is gone. */
function reading<T>(batch: string, of: string) {
  const shown = signal<Resource<T>>({ loading: true })
  const state = { shown, asked: 0, answered: 0, readAt: 0, gone: false, read: (): void => undefined }
  state.read = () => {
    const mine = ++state.asked
    state.readAt = Date.now()
    const done = (resource: Resource<T>): void => {
      if (state.gone || mine < state.answered) return
      state.answered = mine
      shown.value = resource
    }
    get<T>(`/api/batches/${encodeURIComponent(batch)}/${of}`).then(
      (value) => done({ value, loading: false }),
      (error: unknown) => done({ ...shown.value, error: error as Refused, loading: false }),
    )
  }
  return state
}

/**
 * A slow view of a batch, read again when the record grows, and when a reading of this batch comes in, then at most once in `everyMs`; the
 * older stays in sight meanwhile.
 */
export function useSlowView<T>(batch: string, of: 'ferment' | 'dry', everyMs = 0): Resource<T> {
  const state = useMemo(() => reading<T>(batch, of), [batch, of])
  const news = feedNews.value
  const mine = news?.batch === batch ? news : undefined
  useEffect(() => state.read(), [state, recordVersion.value])
  useEffect(() => {
    if (mine === undefined) return
    const timer = setTimeout(state.read, Math.max(0, state.readAt + everyMs - Date.now()))
    return () => clearTimeout(timer)
  }, [state, mine])
  useEffect(() => {
    state.gone = false
    return () => {
      state.gone = true
    }
  }, [state])
  return state.shown.value
}
