import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openHouse, smallKitchen, type House } from '../support.ts'

const segment = (marker: number, body: readonly number[]): number[] => [
  0xff,
  marker,
  (body.length + 2) >> 8,
  (body.length + 2) & 0xff,
  ...body,
]
const text = (words: string): number[] => [...new TextEncoder().encode(words)]
const jfif = segment(0xe0, [...text('JFIF\0'), 1, 1, 0, 0, 1, 0, 1, 0, 0])
/** A JPEG by its markers (ITU-T T.81, Annex B), with segments of its own before the scan. */
const withSegments = (...segments: readonly number[][]): Uint8Array<ArrayBuffer> =>
  new Uint8Array([0xff, 0xd8, ...jfif, ...segments.flat(), ...segment(0xda, [1, 1, 0, 0, 63, 0]), 7, 7, 0xff, 0xd9])
const jpeg = withSegments()
let house: House
beforeAll(async () => {
  house = await openHouse()
  await house.ledger.append(smallKitchen)
})
afterAll(() => house.close())

const put = async (bytes: Uint8Array<ArrayBuffer>): Promise<string> => {
  const response = await house.app.request('/api/files', { method: 'PUT', body: bytes })
  return ((await response.json()) as { sha256: string }).sha256
}
const attach = (file: string, id = 'PS-1') =>
  house.ask('POST', '/api/entries', {
    kind: 'photo.attach',
    by: 'ana',
    body: { file, of: 'lot', id, caption: 'torn bag' },
  })

describe('a photograph', () => {
  it('is attached to a thing of the record and shown as a picture', async () => {
    const file = await put(jpeg)
    expect((await house.ask('GET', `/api/photos/${file}`)).status).toBe(404)
    expect((await attach(file)).status).toBe(201)
    expect((await house.ask('GET', '/api/photos/lot/PS-1')).body['photos']).toMatchObject([
      { file, caption: 'torn bag' },
    ])
    const shown = await house.app.request(`/api/photos/${file}`)
    expect([shown.headers.get('content-type'), shown.headers.get('x-content-type-options')]).toEqual([
      'image/jpeg',
      'nosniff',
    ])
    expect(new Uint8Array(await shown.arrayBuffer())).toEqual(jpeg)
  })

  it('is a JPEG of up to 2 MB, in the record, of something that is there', async () => {
    const faultOf = async (asked: ReturnType<typeof attach>) => {
      const { status, body } = await asked
      expect(status).toBe(400)
      return (body['faults'] as { path: string; message: string }[])[0]!
    }
    const page = await put(new TextEncoder().encode('<html><script>alert(1)</script>'))
    expect(await faultOf(attach(page))).toMatchObject({
      path: 'body.file',
      message: expect.stringContaining('JPEG') as string,
    })
    const large = new Uint8Array(2_000_001)
    large.set(jpeg)
    expect((await faultOf(attach(await put(large)))).message).toMatch(/2000000/)
    expect((await faultOf(attach('0'.repeat(64)))).message).toMatch(/not a file/)
    expect((await faultOf(attach(await put(jpeg), 'NONE'))).path).toBe('body.id')
    expect((await house.ask('GET', `/api/photos/${page}`)).status).toBe(404)
  })

  it.each([
    ['the notes of a camera (EXIF), which say where it was', withSegments(segment(0xe1, text('Exif\0\0MM GPS')))],
    ['notes in XMP', withSegments(segment(0xe1, text('http://ns.adobe.com/xap/1.0/\0<x/>')))],
    ['captions of another program', withSegments(segment(0xed, text('Photoshop 3.0')))],
    ['a comment', withSegments(segment(0xfe, text('taken at home')))],
    ['something after its end', new Uint8Array([...jpeg, ...text('PK\u0003\u0004')])],
    ['a segment longer than the file', new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0xff, 0xff, 1, 0xff, 0xd9])],
  ])('is refused with %s', async (_what, bytes) => {
    const { status, body } = await attach(await put(bytes))
    expect(status).toBe(400)
    expect((body['faults'] as { path: string; message: string }[])[0]).toMatchObject({
      path: 'body.file',
      message: expect.stringContaining('allowed: a JPEG drawn anew') as string,
    })
  })

  it('keeps its colours and how they are coded', async () => {
    const drawn = withSegments(segment(0xe2, text('ICC_PROFILE\0')), segment(0xee, text('Adobe')))
    expect((await attach(await put(drawn))).status).toBe(201)
  })
})
