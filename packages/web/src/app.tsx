import type { ComponentType } from 'preact'
import { useEffect, useRef } from 'preact/hooks'
import { FirstRun } from './pages/first-run/first-run.tsx'
import { pages } from './pages/index.ts'
import { address } from './router.ts'
import { connected, listen } from './state/live.ts'
import { useResource } from './state/resource.ts'
import { readSession } from './state/session.ts'
import { watchUnsent } from './state/unsent.ts'
import { kitchenUnits, who } from './state/who.ts'
import type { KitchenView } from './state/views.ts'
import { Head } from './ui/head.tsx'
import { MaterialLists } from './ui/material-field.tsx'
import { Unsent } from './ui/unsent.tsx'
import { Faults, Loading } from './ui/notes.tsx'

export type { KitchenView } from './state/views.ts'
export type PageProps = { readonly path: readonly string[]; readonly kitchen: KitchenView }
export type Page = {
  readonly at: string
  readonly title: string
  readonly view: ComponentType<PageProps>
  /** Reached from elsewhere on each page, not from the list of pages. */
  readonly unlisted?: true
}

listen()
void readSession()
watchUnsent()

const nothing: KitchenView = { people: [], instruments: [] }

export function App() {
  const kitchen = useResource<KitchenView>('/api/kitchen').value
  const [first = 'today', ...rest] = address.value.path
  const page = pages.find((p) => p.at === first)
  const view = kitchen.value ?? nothing
  const units = view.kitchen?.units
  const open = kitchen.value !== undefined && view.kitchen === undefined && first !== 'reference' && first !== 'rules'
  useEffect(() => {
    if (units) kitchenUnits.value = units
  }, [units])
  const people = kitchen.value?.people
  useEffect(() => {
    // A code kept from another kitchen signs nothing here.
    if (people && people.length > 0 && !people.some((p) => p.person === who.value)) who.value = ''
  }, [people])
  const at = address.value.path.join('/')
  const arrived = useRef(true)
  useEffect(() => {
    // A reader that speaks starts at the top of the new page; on the first one the browser sees to it.
    if (arrived.current) arrived.current = false
    else document.getElementById('page')?.focus({ preventScroll: true })
  }, [at])
  useEffect(() => {
    document.title = page ? `${page.title} · ${view.kitchen?.name ?? 'Forcemeat'}` : 'Forcemeat'
  }, [page, view.kitchen?.name])
  return (
    <>
      <a class="skip" href="#page">
        Skip to the page
      </a>
      <Head kitchen={view} pages={pages} at={first} />
      <Notices demo={view.kitchen?.demo === true} />
      <MaterialLists />
      <main id="page" tabIndex={-1}>
        {kitchen.value === undefined && kitchen.error && <Faults error={kitchen.error} />}
        {kitchen.value === undefined && !kitchen.error && <Loading what="the kitchen" />}
        {open && <FirstRun />}
        {!open && kitchen.value !== undefined && <Body page={page} path={rest} kitchen={view} />}
      </main>
    </>
  )
}

/** What holds for the whole screen: the line to the server, and whether the kitchen is invented. */
function Notices({ demo }: { demo: boolean }) {
  return (
    <aside aria-label="Notices">
      {!connected.value && (
        <p class="banner banner-stop" role="status">
          No line to the server: what is shown may be old. What you type is kept; it is tried again by itself.
        </p>
      )}
      <Unsent />
      {demo && <p class="banner">Invented kitchen and data, to try things out.</p>}
    </aside>
  )
}

function Body({ page, path, kitchen }: { page: Page | undefined; path: readonly string[]; kitchen: KitchenView }) {
  const View = page?.view
  if (!View)
    return (
      <>
        <h1>There is no such page</h1>
        <p>
          <a href="/today">Go to Today</a>
        </p>
      </>
    )
  return <View path={path} kitchen={kitchen} />
}
