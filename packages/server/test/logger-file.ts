/** A logger file of a cook and chill, made up: the core follows the house with one time constant. Minutes a row, °C. */
export function loggerFile({ chillTau = 35, hours = 9 }: { chillTau?: number; hours?: number } = {}): string {
  const rows = ['Time,Core 1 (°C),House (°C)']
  let core = 6
  for (let m = 0; m <= hours * 60; m += 1) {
    const house = m < 45 ? 60 : m < 210 ? 80 : 0
    core += (house - core) / (m < 210 ? 40 : chillTau)
    const at = new Date(Date.UTC(2026, 10, 21, 6, m)).toISOString().slice(0, 16).replace('T', ' ')
    rows.push(`${at},${core.toFixed(2)},${house.toFixed(1)}`)
  }
  return `${rows.join('\n')}\n`
}
