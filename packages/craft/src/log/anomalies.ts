import { anomalyKinds, type Anomaly, type AnomalyKind } from './format.ts'

export type AnomalyReport = {
  readonly listed: readonly Anomaly[]
  readonly counts: Readonly<Partial<Record<AnomalyKind, number>>>
}

/** Collects anomalies: every one is counted, the first `keep` are listed. */
export function createAnomalyList(channels: readonly { readonly name: string }[], keep = Infinity) {
  const listed: Anomaly[] = []
  const counts = new Map<AnomalyKind, number>()
  const add = (kind: AnomalyKind, row: number, channel: number | undefined, text: string): void => {
    counts.set(kind, (counts.get(kind) ?? 0) + 1)
    if (listed.length >= keep) return
    const column = channel === undefined ? undefined : channels[channel]!.name
    listed.push({ row, kind, ...(column === undefined ? {} : { column }), ...(text === '' ? {} : { text }) })
  }
  const report = (): AnomalyReport => ({
    listed,
    counts: Object.fromEntries(anomalyKinds.flatMap((k) => (counts.has(k) ? [[k, counts.get(k)!]] : []))),
  })
  return { add, report }
}
