import { signal, type Signal } from '@preact/signals'
import { useEffect, useMemo } from 'preact/hooks'
import { get, Refused } from '../api.ts'
import { recordVersion } from './live.ts'

/** Something being read: nothing yet, a value, or why not. A value stays on the page while a newer one is fetched. */
export type Resource<T> = { readonly value?: T; readonly error?: Refused; readonly loading: boolean }

/** Read `path` now and again whenever the record grows. `undefined` reads nothing. */
export function useResource<T>(path: string | undefined): Signal<Resource<T>> {
  const resource = useMemo(() => signal<Resource<T>>({ loading: path !== undefined }), [path])
  const version = recordVersion.value
  useEffect(() => {
    if (path === undefined) return
    let stale = false
    get<T>(path).then(
      (value) => {
        if (!stale) resource.value = { value, loading: false }
      },
      (error: unknown) => {
        if (!stale) resource.value = { ...resource.value, error: error as Refused, loading: false }
      },
    )
    return () => {
      stale = true
    }
  }, [path, version])
  return resource
}
