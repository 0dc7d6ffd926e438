import { execFileSync } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect } from 'vitest'
import type { House } from '../support.ts'

export type Block = { id: string; what: string; settle: string; by: 'data' | 'person'; settled?: string }

/** Approve a label, every question to a person answered, and print it without the mark of a proof. */
export async function approvedPdf(house: House, body: { label: string }, sheet: object = {}): Promise<Uint8Array> {
  const proof = await house.ask('POST', '/api/labels/proof', body)
  expect(proof.status, JSON.stringify(proof.body)).toBe(200)
  const blocks = proof.body['blocks'] as Block[]
  expect(blocks.filter((b) => b.by === 'data').map((b) => b.what)).toEqual([])
  const { status, body: said } = await house.ask('POST', '/api/labels/approve', {
    ...body,
    settled: blocks.map((b) => ({ id: b.id, how: 'read in its source' })),
    reasons: ['proof read'],
    by: 'ana',
  })
  expect(status, JSON.stringify(said)).toBe(201)
  const answer = await house.app.request('/api/labels/pdf', {
    method: 'POST',
    body: JSON.stringify({ ...body, ...sheet }),
  })
  expect(answer.status).toBe(200)
  return new Uint8Array(await answer.arrayBuffer())
}

let files = 0
export const kept = (folder: string, bytes: Uint8Array): string => {
  const file = join(folder, `label-${process.pid}-${(files += 1)}.pdf`)
  writeFileSync(file, bytes)
  return file
}

/** The page as pixels. */
export const png = (file: string, dpi = 300): string => {
  execFileSync('pdftoppm', ['-r', String(dpi), '-png', '-singlefile', file, file.replace('.pdf', '')])
  return file.replace('.pdf', '.png')
}
const latin = { encoding: 'latin1' } as const
const zbar = (image: string) => execFileSync('zbarimg', ['-q', '--raw', image], latin).trimEnd()
const dmtx = (image: string) => execFileSync('dmtxread', ['-N1', '-m', '8000', image], latin).trimEnd()

/** What an independent reader makes of the code on a page; readers leave the leading FNC1 out or give it as a group separator. */
export function readBack(file: string, kind: string): string {
  const seen = (kind === 'gs1-datamatrix' ? dmtx : zbar)(png(file))
  const data = seen.replace(/^\]C1/, '').replaceAll('\u00E8', '')
  return data.startsWith(String.fromCodePoint(29)) ? data.slice(1) : data
}

/** Every text of a page with its size in points and its place, as poppler reads it. */
export function textsOf(file: string): { text: string; pt: number }[] {
  const html = execFileSync('pdftohtml', ['-xml', '-stdout', '-i', '-zoom', '1', '-fontfullname', file], {
    encoding: 'utf8',
  })
  const sizes = new Map(
    [...html.matchAll(/<fontspec id="(\d+)" size="([\d.-]+)"/g)].map((m) => [m[1]!, Number(m[2])] as const),
  )
  return [...html.matchAll(/<text [^>]*font="(\d+)"[^>]*>(.*?)<\/text>/g)].map((m) => ({
    text: m[2]!
      .replaceAll(/<[^>]*>/g, '')
      .replaceAll('&amp;', '&')
      .replaceAll('\u00A0', ' '),
    pt: sizes.get(m[1]!)!,
  }))
}
