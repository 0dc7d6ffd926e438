import type { Fact } from '../facts.ts'
import type { Admission } from './report.ts'

/** A house without an owner could never be given one again: the last who is here stays owner. */
export async function anOwnerStays(
  { sql, fault }: Pick<Admission, 'sql' | 'fault'>,
  { body }: { readonly body: Fact<'person.add'> },
  path: string,
): Promise<void> {
  if (body.role !== 'owner' || body.left) return
  const rows = await sql.all<{ text: string }>(
    `select e.text from fact f join entry e on e.seq = f.seq where f.kind = 'person.add'`,
  )
  const others = rows
    .map((r) => (JSON.parse(r.text) as { body: Fact<'person.add'> }).body)
    .some((p) => p.person !== body.person && p.role === 'owner' && !p.left)
  if (!others)
    fault(path, `leaves the house without an owner: ${body.person} is the last; allowed: once another person is owner`)
}
