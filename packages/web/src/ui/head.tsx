import type { KitchenView } from '../state/views.ts'
import { system, units } from '../state/who.ts'
import { AtScreen } from './at-screen.tsx'

type Props = { kitchen: KitchenView; pages: readonly { at: string; title: string }[]; at: string }

/** Head of every page: the kitchen, the pages, who is working and in which units. */
export function Head({ kitchen, pages, at }: Props) {
  return (
    <header class="head">
      <span class="kitchen">{kitchen.kitchen?.name ?? 'Forcemeat'}</span>
      <nav aria-label="Pages">
        {pages.map((p) => (
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
