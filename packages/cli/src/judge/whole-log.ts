import { open } from 'node:fs/promises'
import type { Answers, Channel, Question, Role } from '@forcemeat/craft/log/format'
import { readLog, type LogChannel, type LogRead } from '@forcemeat/craft/log/read'
import { largestRead } from '@forcemeat/server/curves/recorded'
import { exit, Stop } from '../command.ts'

/** A logger file read whole, with the columns that are judged; none while a question is open. */
export type WholeLog = {
  readonly read: LogRead
  readonly questions: readonly Question[]
  readonly notes: readonly string[]
  readonly used: readonly LogChannel[]
}

/** Which columns of a file are judged: the air of a chamber, or the centre of a piece. */
export type Part = 'air' | 'centre'

async function bytesOf(path: string): Promise<Uint8Array> {
  const parts: Uint8Array[] = []
  let total = 0
  const take = (part: Uint8Array): void => {
    total += part.byteLength
    if (total > largestRead)
      throw new Stop(
        exit.badInput,
        `FILE: ${path} holds more than ${largestRead / 1e6} MB; allowed: the part of the log that is judged`,
      )
    parts.push(part)
  }
  if (path === '-') for await (const part of process.stdin) take(part as Buffer)
  else {
    const file = await open(path)
    try {
      for await (const part of file.createReadStream({ autoClose: false })) take(part as Buffer)
    } finally {
      await file.close()
    }
  }
  return Buffer.concat(parts)
}

/** The chamber's columns: those named as the house, else the only temperature there is; and what is said of that choice. */
function airAmong(channels: readonly Channel[]): { air: readonly Channel[]; notes: readonly string[] } {
  const house = channels.filter((c) => c.role === 'house')
  if (house.length > 1)
    return { air: house, notes: [`${house.map((c) => c.name).join(', ')}: the warmest at each instant counts`] }
  if (house.length > 0) return { air: house, notes: [] }
  const [only, ...more] = channels
  if (!only || more.length > 0) return { air: [], notes: [] }
  return { air: [only], notes: [`${only.name}: taken as the air of the chamber, the only temperature in the file`] }
}

function asAir(bytes: Uint8Array, answers: Answers, first: LogRead): WholeLog {
  const channels = first.format?.channels ?? []
  const { air, notes } = airAmong(channels)
  const other = first.questions.filter((q) => q.about !== 'roles')
  if (air.length === 0) {
    const asked: Question = {
      about: 'roles',
      text: `Which columns are the air of the chamber? ${channels.map((c) => c.name).join(', ')}.`,
      choices: channels.map((c) => c.name),
    }
    return { read: first, notes: first.notes, questions: [...other, asked], used: [] }
  }
  const roles = Object.fromEntries(
    channels.map((c): [string, Role] => [`column ${c.column + 1}`, air.includes(c) ? 'house' : 'other']),
  )
  const read = readLog(bytes, { ...answers, roles })
  return {
    read,
    notes: [...read.notes, ...notes],
    questions: read.questions,
    used: read.channels.filter((c) => c.role === 'house'),
  }
}

/** Read a file whole for a judgement of hours and days. @throws Stop where it is no log, or too large. */
export async function wholeLog(path: string, answers: Answers, part: Part): Promise<WholeLog> {
  const bytes = await bytesOf(path)
  const first = readLog(bytes, answers)
  if (first.format === undefined && first.questions.every((q) => q.about === 'layout'))
    throw new Stop(
      exit.badInput,
      `FILE: ${path} cannot be read as a logger's file; allowed: a table of one row a reading, a time and then temperatures`,
    )
  if (part === 'air') return asAir(bytes, answers, first)
  const used = first.channels.filter((c) => c.role === 'core')
  const none: Question = {
    about: 'roles',
    text: 'No column is named as the centre of a piece.',
    choices: (first.format?.channels ?? []).map((c) => c.name),
  }
  const questions = first.questions.length === 0 && used.length === 0 ? [none] : first.questions
  return { read: first, notes: first.notes, questions, used }
}
