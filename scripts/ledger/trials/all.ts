import { otherTrials } from './clock-and-two.ts'
import { damageTrials } from './damage.ts'
import { diskTrials } from './disk.ts'
import { killRounds } from './kill-rounds.ts'
import type { Trial } from './trial.ts'

/** Raise or lower with KILL_ROUNDS. */
const killed: Trial = {
  name: 'writer killed at any moment',
  run: async (short) => {
    const rounds = Number(process.env['KILL_ROUNDS'] ?? (short ? 10 : 500))
    const { acknowledged, entries, files, kinds, killedEarly, faults } = await killRounds({ rounds, seed: 11 })
    return {
      said: `${rounds} rounds: ${acknowledged} entries of ${kinds} kinds and ${files} files acknowledged, ${entries} in the chain, ${killedEarly} killed before their first`,
      faults,
    }
  },
}

export const allTrials: readonly Trial[] = [killed, ...diskTrials, ...damageTrials, ...otherTrials]
