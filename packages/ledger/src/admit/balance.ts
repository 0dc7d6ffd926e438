import { kilograms, movementsOf } from '../views/project.ts'
import type { Admission } from './report.ts'

const kg = (mg: number): string => `${Number(kilograms(mg).toFixed(6))} kg`

/**
 * Nothing leaves a lot that is not in it, unless a note says why: scales differ and labels lie, and then the record should say so
 * rather than be bent.
 */
export async function balanceHolds(a: Admission, path: string): Promise<void> {
  const { sql, draft, old, plans, fault } = a
  const after = draft.kind === 'entry.withdraw' ? [] : await movementsOf(sql, draft, plans)
  const before = old ? await movementsOf(sql, old, plans) : []
  const changes = new Map<string, number>()
  for (const { lot, mg } of before) changes.set(lot, (changes.get(lot) ?? 0) - mg)
  for (const { lot, mg } of after) changes.set(lot, (changes.get(lot) ?? 0) + mg)
  const note =
    ('note' in draft.body ? draft.body.note : undefined) ?? (draft.kind === 'entry.withdraw' ? draft.why : undefined)
  for (const [lot, change] of changes) {
    if (change >= 0 || note !== undefined) continue
    const [row] = await sql.all<{ balance_mg: number }>('select balance_mg from lot where lot = ?', [lot])
    if (row && row.balance_mg + change < 0)
      fault(
        path,
        `takes ${kg(-change)} from lot ${lot}, which holds ${kg(row.balance_mg)}; allowed: at most what the lot holds, or a note that says why`,
      )
  }
}
