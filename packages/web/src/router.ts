import { signal } from '@preact/signals'

export type Address = { readonly path: readonly string[]; readonly query: URLSearchParams }

/** A part of the address as text; what is no valid escape stays as it stands, and no page has that name. */
const decoded = (part: string): string => {
  try {
    return decodeURIComponent(part)
  } catch {
    return part
  }
}

const read = (): Address => ({
  path: location.pathname.split('/').filter(Boolean).map(decoded),
  query: new URLSearchParams(location.search),
})

/** Where the reader is. */
export const address = signal<Address>(read())

/** Go to a page of the workbench; `replace` leaves no step to go back to. */
export function go(to: string, { replace = false }: { replace?: boolean } = {}): void {
  history[replace ? 'replaceState' : 'pushState'](null, '', to)
  address.value = read()
  if (!replace) window.scrollTo(0, 0)
}

/** Follow browser history and plain clicks on links inside the workbench without reloading it. */
export function followLinks(): void {
  window.addEventListener('popstate', () => {
    address.value = read()
  })
  document.addEventListener('click', (event) => {
    if (
      event.defaultPrevented ||
      event.button !== 0 ||
      event.metaKey ||
      event.ctrlKey ||
      event.shiftKey ||
      event.altKey
    )
      return
    const link = (event.target as Element | null)?.closest('a')
    if (!link || link.target || link.hasAttribute('download') || link.origin !== location.origin) return
    if (/^\/(api|paper)\//.test(link.pathname)) return
    // A place on this page is the browser's own matter.
    if (link.hash && link.pathname === location.pathname && link.search === location.search) return
    event.preventDefault()
    go(link.pathname + link.search + link.hash)
  })
}
