import { signal, type Signal } from '@preact/signals'
import { useEffect, useMemo } from 'preact/hooks'
import { get, Refused } from '../api.ts'
import { recordVersion } from './live.ts'

/** Something being read: nothing yet, a value, or why not. A value stays on the page while a newer one is fetched. */
export type Resource<T> = { readonly value?: T; readonly error?: Refused; readonly loading: boolean }

type Reading = {
  readonly path: string
  readonly done: (value: unknown) => void
  readonly failed: (error: unknown) => void
}
let asked: Reading[] = []

/** What a page asks for at one go is read from the outside in, and the same address once. */
function readAll(): void {
  const now = Map.groupBy(asked.toReversed(), (r) => r.path)
  asked = []
  for (const [path, readings] of now)
    get(path).then(
      (value) => readings.forEach((r) => r.done(value)),
      (error: unknown) => readings.forEach((r) => r.failed(error)),
    )
}

/** Inner parts of a page ask before what holds them, which is what the eye waits for. */
function ask(reading: Reading): void {
  if (asked.length === 0) queueMicrotask(readAll)
  asked.push(reading)
}

/** Read `path` now and again whenever the record grows. `undefined` reads nothing. */
export function useResource<T>(path: string | undefined): Signal<Resource<T>> {
  const resource = useMemo(() => signal<Resource<T>>({ loading: path !== undefined }), [path])
  const version = recordVersion.value
  useEffect(() => {
    if (path === undefined) return
    let stale = false
    ask({
      path,
      done: (value) => {
        if (!stale) resource.value = { value: value as T, loading: false }
      },
      failed: (error) => {
        if (!stale) resource.value = { ...resource.value, error: error as Refused, loading: false }
      },
    })
    return () => {
      stale = true
    }
  }, [path, version])
  return resource
}
