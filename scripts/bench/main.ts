// Each group is one file; a group is run where its name is among the arguments, or where there are none.
export const groups: Readonly<Record<string, () => Promise<{ run: () => Promise<void> | void }>>> = {
  recipe: () => import('./recipe-page.ts'),
  blend: () => import('./blend.ts'),
  heat: () => import('./heat.ts'),
  dry: () => import('./dry.ts'),
  logs: () => import('./logs.ts'),
  record: () => import('./record.ts'),
  plant: () => import('./plant.ts'),
}
/** Groups that take so long that they are run only where they are named. */
const onlyNamed = new Set(['plant'])

const asked = process.argv.slice(2)
const unknown = asked.filter((name) => !(name in groups))
if (unknown.length > 0) {
  console.error(`no such group: ${unknown.join(', ')}; there are ${Object.keys(groups).join(', ')}`)
  process.exit(2)
}
for (const [name, load] of Object.entries(groups))
  if (asked.length === 0 ? !onlyNamed.has(name) : asked.includes(name)) await (await load()).run()
