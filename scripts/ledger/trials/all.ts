import { otherTrials } from './clock-and-two.ts'
import { damageTrials } from './damage.ts'
import { diskTrials } from './disk.ts'
import { killRounds } from './kill-rounds.ts'
import type { Trial } from './trial.ts'

const roundsOfOne = 50

/** Raise or lower with KILL_ROUNDS. */
const killed: Trial = {
  name: 'writer killed at any moment',
  run: async (short) => {
    const rounds = Number(process.env['KILL_ROUNDS'] ?? (short ? 10 : 500))
    const sum = { acknowledged: 0, entries: 0, files: 0, killedEarly: 0 }
    const [faults, kinds] = [[] as string[], new Set<number>()]
    // Fifty rounds to a record: each round is looked over whole.
    for (let done = 0; done < rounds; done += roundsOfOne) {
      const of = Math.min(roundsOfOne, rounds - done)
      const report = await killRounds({ rounds: of, seed: 11 + done })
      for (const name of ['acknowledged', 'entries', 'files', 'killedEarly'] as const) sum[name] += report[name]
      kinds.add(report.kinds)
      faults.push(...report.faults)
      if (!short)
        console.error(`        ${done + of} rounds, ${sum.acknowledged} entries acknowledged, ${faults.length} faults`)
    }
    return {
      said: `${rounds} rounds: ${sum.acknowledged} entries of ${Math.max(...kinds)} kinds and ${sum.files} files acknowledged, ${sum.entries} in the chains, ${sum.killedEarly} killed before their first`,
      faults,
    }
  },
}

export const allTrials: readonly Trial[] = [killed, ...diskTrials, ...damageTrials, ...otherTrials]
