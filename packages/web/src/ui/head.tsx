import type { KitchenView } from '../state/views.ts'
import { system, units } from '../state/who.ts'
import { AtScreen } from './at-screen.tsx'

type Props = { kitchen: KitchenView; pages: readonly { at: string; title: string; unlisted?: true }[]; at: string }

/** Head of every page: the kitchen, the pages, who is working and in which units. */
export function Head({ kitchen, pages, at }: Props) {
  return (
    <header class="head">
      <a class="kitchen" href="/people" title="The kitchen and its people">
        {kitchen.kitchen?.name ?? 'Forcemeat'}
      </a>
      <nav aria-label="Pages">
        {pages
          .filter((p) => !p.unlisted)
          .map((p) => (
            <a key={p.at} href={`/${p.at}`} {...(p.at === at ? { 'aria-current': 'page' as const } : {})}>
              {p.title}
            </a>
          ))}
      </nav>
      <div class="at-screen">
        <AtScreen kitchen={kitchen} />
        <label>
          <span class="visually-hidden">Units</span>
          <select value={system.value} onInput={(e) => (units.value = e.currentTarget.value as 'metric' | 'us')}>
            <option value="metric">kg, °C</option>
            <option value="us">lb, °F</option>
          </select>
        </label>
      </div>
    </header>
  )
}
