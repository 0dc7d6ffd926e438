// Every durability trial, one line each. `npm run trials`; `-- --short` for what a test run has time for; `-- disk kill` for some by name.
import { allTrials } from './all.ts'

const asked = process.argv.slice(2)
const short = asked.includes('--short')
const words = asked.filter((a) => !a.startsWith('--')).map((a) => a.toLowerCase())
const chosen = allTrials.filter((t) => words.length === 0 || words.some((w) => t.name.includes(w)))
if (chosen.length === 0) {
  console.error(`no such trial: ${words.join(', ')}; there are: ${allTrials.map((t) => t.name).join('; ')}`)
  process.exit(2)
}
let failed = 0
for (const { name, run } of chosen) {
  const begun = Date.now()
  const { said, faults } = await run(short).catch((error: unknown) => ({
    said: 'did not end',
    faults: [String(error)],
  }))
  if (faults.length > 0) failed += 1
  console.log(
    `${faults.length === 0 ? 'held  ' : 'FAILED'}  ${name}: ${said} (${((Date.now() - begun) / 1000).toFixed(1)} s)`,
  )
  for (const fault of faults.slice(0, 20)) console.log(`        ${fault}`)
}
process.exit(failed === 0 ? 0 : 1)
