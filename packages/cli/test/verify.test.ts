import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import Database from 'better-sqlite3'
import { fileOf, openLedger } from '@forcemeat/ledger'
import { expect, it, onTestFinished } from 'vitest'

const bin = fileURLToPath(new URL('../bin/forcemeat.mjs', import.meta.url))

it('names the derived table and the row that are not what the entries make them', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'forcemeat-verify-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  const ledger = await openLedger({ folder })
  await ledger.append([
    { kind: 'person.add', by: 'ana', body: { person: 'ana', name: 'Ana Brook', role: 'owner' } },
    { kind: 'lot.receive', by: 'ana', body: { lot: 'SA-1', material: 'salt', kg: 5, on: '2026-11-20' } },
  ])
  await ledger.close()
  const verify = () => spawnSync(process.execPath, [bin, 'verify', '--folder', folder], { encoding: 'utf8' })
  expect(verify().status).toBe(0)
  const db = new Database(fileOf({ folder }))
  db.exec('update lot set balance_mg = 1')
  db.close()
  const { status, stdout } = verify()
  expect(status).toBe(1)
  expect(stdout).toContain('THE RECORD DOES NOT VERIFY')
  expect(stdout).toContain('derived table lot, row lot SA-1: balance_mg is 1, and the entries make it 5000000')
  expect(stdout).toContain('2 entries hold')
}, 60_000)
