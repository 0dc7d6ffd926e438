// Judges one logger file in a process of its own and prints what it took: milliseconds, and the most memory the process held.
import { chunksOf } from '../../packages/cli/src/chunks.ts'
import { judgeLog } from '@forcemeat/craft/log/judge-log'

const begun = performance.now()
const { rows } = await judgeLog(chunksOf(process.argv[2]!), {
  product: { species: 'meat' },
  cooling: { cured: false },
  toleranceC: 0.5,
})
console.log(JSON.stringify({ rows, ms: performance.now() - begun, peakMb: process.resourceUsage().maxRSS / 1024 }))
