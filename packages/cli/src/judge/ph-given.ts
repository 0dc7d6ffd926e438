import { readFile } from 'node:fs/promises'
import { InvalidInput } from '@forcemeat/craft/calculation'
import type { LogFormat } from '@forcemeat/craft/log/format'
import { cellName, readTable } from '@forcemeat/server/import/table'
import { exit, Stop } from '../command.ts'
import { fileThere } from './asked.ts'

/** A pH as it was given: when, as written, and where it stands, so that a fault can name it. */
export type PhGiven = { readonly when: string; readonly ph: number; readonly where: string }

/** A pH on the clock of the log, ms since 1970 by that clock. */
export type PhPlaced = { readonly at: number; readonly ph: number }

const WHEN = 'hours from the start of the log, or an instant as YYYY-MM-DD hh:mm'
const LOWEST = 2
const HIGHEST = 9

const number = (text: string): number => (/^\d+(?:[.,]\d+)?$/.test(text) ? Number(text.replace(',', '.')) : NaN)

function phOf(text: string, where: string): number {
  const ph = number(text)
  if (!(ph >= LOWEST && ph <= HIGHEST))
    throw new Stop(exit.badInput, `${where}: pH is ${JSON.stringify(text)}; allowed: a pH from ${LOWEST} to ${HIGHEST}`)
  return ph
}

/** `0=5.7, 20=5.2`: a list with commas, or with semicolons where the decimal mark is a comma. @throws Stop */
export function phsInText(text: string): PhGiven[] {
  const items = text
    .split(text.includes(';') ? ';' : ',')
    .map((i) => i.trim())
    .filter(Boolean)
  if (items.length === 0) throw new Stop(exit.badInput, `--ph: is empty; allowed: when=pH, such as 0=5.7, 20=5.2`)
  return items.map((item) => {
    const at = item.indexOf('=')
    if (at < 1)
      throw new Stop(
        exit.badInput,
        `--ph: holds ${JSON.stringify(item)}; allowed: when=pH, where when is ${WHEN}; between decimal commas use ;`,
      )
    return { when: item.slice(0, at).trim(), ph: phOf(item.slice(at + 1).trim(), '--ph'), where: '--ph' }
  })
}

/** The readings of a file with a head over a column of times and one of pH. @throws Stop */
export async function phsInFile(path: string): Promise<PhGiven[]> {
  await fileThere(path, '--ph-file', 'a table with a column of times and one of pH')
  const refuse = (message: string): Stop => new Stop(exit.badInput, `--ph-file: ${path} ${message}`)
  const table = await readTable(await readFile(path)).catch((error: unknown) => {
    if (error instanceof InvalidInput) throw refuse(error.faults.map((f) => f.message).join('; '))
    throw error
  })
  const { heads, rows } = table
  const ph = heads.findIndex((h) => /^ph\b|\bph$/i.test(h))
  const time = heads.findIndex((h, i) => i !== ph && /time|hour|taken|date|when|^h$/i.test(h))
  if (ph < 0 || time < 0)
    throw refuse(
      `has the heads ${heads.map((h) => JSON.stringify(h)).join(', ')}; allowed: a head "time" or "hour" and a head "pH"`,
    )
  return rows
    .map((row, i) => ({ row, line: i + 2 }))
    .filter(({ row }) => row.some((cell) => cell !== ''))
    .map(({ row, line }) => ({
      when: row[time] ?? '',
      ph: phOf(row[ph] ?? '', `--ph-file: ${cellName(ph, line)}`),
      where: `--ph-file: ${cellName(time, line)}`,
    }))
}

const dated: readonly LogFormat['time']['form'][] = ['ymd', 'dmy', 'mdy', 'epoch-s', 'epoch-ms', 'serial-days']

/** Whether a log's times are dates, and whether they say their zone. */
export const clockOf = ({ time }: LogFormat): 'undated' | 'no-zone' | 'zone' => {
  if (!dated.includes(time.form)) return 'undated'
  return time.offset || time.form.startsWith('epoch') ? 'zone' : 'no-zone'
}

const INSTANT = /^(\d{4}-\d\d-\d\d)[T ](\d\d:\d\d(?::\d\d)?)(Z|[+-]\d\d:?\d\d)?$/

/** Put a reading on the clock of the log, which begins at `startAt` by it. @throws Stop naming the reading */
export function placePh({ when, ph, where }: PhGiven, startAt: number, clock: ReturnType<typeof clockOf>): PhPlaced {
  const hours = number(when)
  if (!Number.isNaN(hours)) return { at: startAt + hours * 3_600_000, ph }
  const refuse = (why: string, allowed: string): Stop =>
    new Stop(exit.badInput, `${where}: ${JSON.stringify(when)} ${why}; allowed: ${allowed}`)
  const [, day, time, zone] = INSTANT.exec(when) ?? []
  const wall = day === undefined ? NaN : Date.parse(`${day}T${time}Z`)
  if (Number.isNaN(wall) || !new Date(wall).toISOString().startsWith(`${day}T${time}`)) throw refuse('is no time', WHEN)
  if (clock === 'undated') throw refuse('is an instant, and the log gives no dates', 'hours from the start of the log')
  if (clock === 'no-zone' && zone !== undefined)
    throw refuse('names a zone, and the clock of the log names none', 'the time as the clock of the log shows it')
  if (clock === 'zone' && zone === undefined)
    throw refuse(
      'names no zone, and the times of the log do',
      'the instant with its zone, such as 2026-11-18T15:00Z, or hours from the start of the log',
    )
  return { at: zone === undefined ? wall : Date.parse(`${day}T${time}${zone}`), ph }
}
