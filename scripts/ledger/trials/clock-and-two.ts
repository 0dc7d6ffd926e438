// A clock that was set back, and two servers on one record.
import { openLedger } from '@forcemeat/ledger'
import { inScratch } from './scratch.ts'
import { examine, missing, serving, told, type Trial } from './trial.ts'

const clock: Trial = {
  name: 'clock set back',
  run: () =>
    inScratch(async (folder) => {
      const faults: string[] = []
      const kept = new Map<number, string>()
      const instants = [
        '2026-03-02T12:00:00.000Z',
        '2026-03-01T09:00:00.000Z',
        '1970-01-01T00:00:00.000Z',
        '2026-03-05T00:00:00.000Z',
      ]
      for (const [i, now] of instants.entries()) {
        // Set back while it is open, and again while it is closed.
        let at = now
        const ledger = await openLedger({ folder, now: () => at })
        await told(ledger, 2 * i, 1, kept)
        at = '2025-01-01T00:00:00.000Z'
        await told(ledger, 2 * i + 1, 1, kept)
        await ledger.close()
      }
      const ledger = await openLedger({ folder })
      faults.push(...(await missing(ledger, kept)))
      let [last, noted] = ['', 0]
      for (let after = 0; ;) {
        const page = await ledger.entries({ after, limit: 1000 })
        if (page.length === 0) break
        for (const e of page) {
          if (e.at < last) faults.push(`entry ${e.seq} stands at ${e.at}, before the one before it`)
          if (e.clock !== undefined) noted += 1
          last = e.at
        }
        after = page.at(-1)!.seq
      }
      const { entries, head } = await ledger.head()
      await ledger.close()
      if (noted === 0) faults.push('no entry notes what the clock said')
      const found = await examine(folder, { entries, head: head! })
      if (!('report' in found && found.report.ok)) faults.push('does not verify')
      return { said: `${kept.size} entries in order, ${noted} of them with what the clock said beside`, faults }
    }),
}

const post = (url: string, body: unknown): Promise<Response> =>
  fetch(`${url}/api/entries`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin: url },
    body: JSON.stringify(body),
  })

type Answered = { entries: { seq: number; hash: string }[] }

const two: Trial = {
  name: 'two servers on one record',
  run: (short) =>
    inScratch(async (folder) => {
      const faults: string[] = []
      const servers = [await serving(folder), await serving(folder)]
      const kept = new Map<number, string>()
      try {
        const begun = await post(servers[0]!.url, [
          { kind: 'person.add', by: 'ida', body: { person: 'ida', name: 'Ida', role: 'owner' } },
          {
            kind: 'lot.receive',
            by: 'ida',
            body: { lot: 'L1', material: 'pork-shoulder-trim', kg: 100, on: '2025-11-20' },
          },
        ])
        if (begun.status !== 201) faults.push(`the first entries were answered with ${begun.status}`)
        const stop = new AbortController()
        const writer = async (server: number, hand: number): Promise<void> => {
          for (let n = 0; !stop.signal.aborted; n += 1) {
            const key = `${server} ${hand} ${n}`
            const body = { lot: 'L1', kg: n % 2 ? 0.5 : -0.5, reason: 'count', on: '2025-11-25', note: key }
            const answer = await post(servers[server]!.url, { kind: 'lot.adjust', by: 'ida', key, body }).catch(
              () => undefined,
            )
            const entry = answer?.ok ? ((await answer.json()) as Answered).entries[0] : undefined
            if (!entry) continue
            if (kept.has(entry.seq)) faults.push(`entry ${entry.seq} was acknowledged twice`)
            kept.set(entry.seq, entry.hash)
          }
        }
        const writers = [0, 1].flatMap((s) => [0, 1, 2].map((hand) => writer(s, hand)))
        await new Promise((resolve) => setTimeout(resolve, short ? 700 : 6000))
        // One of them dies in the midst of it; the other goes on.
        await servers[1]!.stop('SIGKILL')
        const atDeath = kept.size
        await new Promise((resolve) => setTimeout(resolve, short ? 400 : 3000))
        stop.abort()
        await Promise.all(writers)
        if (kept.size === atDeath) faults.push('the other server took nothing after one died')
      } finally {
        for (const s of servers) await s.stop()
      }
      const ledger = await openLedger({ folder })
      faults.push(...(await missing(ledger, kept)))
      const report = await ledger.verify({ views: true })
      if (!report.ok) faults.push(`does not verify: ${JSON.stringify(report)}`)
      await ledger.close()
      return {
        said: `${kept.size} entries acknowledged by both, in one chain of ${report.entries}, one killed on the way`,
        faults,
      }
    }),
}

export const otherTrials: readonly Trial[] = [clock, two]
