import type { ComponentType } from 'preact'
import { connected, listen } from './state/live.ts'
import { useResource } from './state/resource.ts'
import { who } from './state/who.ts'
import { address } from './router.ts'
import { pages } from './pages/index.ts'

export type KitchenView = {
  readonly kitchen?: { name: string; place?: string; altitudeM?: number; jurisdictions: string[]; units: 'metric' | 'us'; demo?: boolean }
  readonly people: readonly { person: string; name: string; role: string }[]
  readonly instruments: readonly Record<string, unknown>[]
}

export type PageProps = { readonly path: readonly string[]; readonly kitchen: KitchenView }
export type Page = { readonly at: string; readonly title: string; readonly view: ComponentType<PageProps>; readonly aside?: boolean }

listen()

function Person({ kitchen }: { kitchen: KitchenView }) {
  return (
    <label class="at-screen">
      <span>Working here</span>
      <select value={who.value} onInput={(e) => (who.value = e.currentTarget.value)}>
        <option value="">nobody yet</option>
        {kitchen.people.map((p) => (
          <option key={p.person} value={p.person}>
            {p.name} ({p.role})
          </option>
        ))}
      </select>
    </label>
  )
}

export function App() {
  const kitchen = useResource<KitchenView>('/api/kitchen').value
  const [first = 'today', ...rest] = address.value.path
  const page = pages.find((p) => p.at === first)
  const View = page?.view
  const view = kitchen.value ?? { people: [], instruments: [] }
  document.title = page ? `${page.title} · ${view.kitchen?.name ?? 'Forcemeat'}` : 'Forcemeat'
  return (
    <>
      <a class="skip" href="#page">
        Skip to the page
      </a>
      <header class="head">
        <span class="kitchen">{view.kitchen?.name ?? 'Forcemeat'}</span>
        <nav aria-label="Pages">
          {pages.map((p) => (
            <a key={p.at} href={`/${p.at}`} aria-current={p.at === first ? 'page' : undefined}>
              {p.title}
            </a>
          ))}
        </nav>
        <Person kitchen={view} />
      </header>
      {!connected.value && (
        <p class="banner banner-stop" role="status">
          No line to the server: what is shown may be old. It is tried again by itself.
        </p>
      )}
      {view.kitchen?.demo && <p class="banner">Invented kitchen and data, to try things out.</p>}
      <main id="page" tabIndex={-1}>
        {View ? <View path={rest} kitchen={view} /> : <h1>There is no such page</h1>}
      </main>
    </>
  )
}
