import { spawn, spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { commands } from '../src/commands.ts'

const bin = fileURLToPath(new URL('../bin/forcemeat.mjs', import.meta.url))
const root = fileURLToPath(new URL('../../..', import.meta.url))
let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'forcemeat-cli-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const run = (args: readonly string[], input = '') =>
  spawnSync(process.execPath, [bin, ...args], {
    input,
    encoding: 'utf8',
    cwd: folder,
    env: { ...process.env, NO_COLOR: '1' },
  })
const at = (...parts: string[]) => join(folder, ...parts)

describe('the command line', () => {
  it('lists its commands and exit codes', () => {
    const { status, stdout } = run(['--help'])
    expect(status).toBe(0)
    for (const name of Object.keys(commands)) expect(stdout).toContain(name)
    expect(stdout).toContain('EXIT CODES')
    expect(run(['--version']).stdout.trim()).toMatch(/^\d+\.\d+\.\d+$/)
  })

  it.each(Object.keys(commands))(
    '%s says what it takes, with an example and its exit codes, as the page of commands does',
    (name) => {
      const { status, stdout, stderr } = run([name, '--help'])
      expect(status, stderr).toBe(0)
      expect(stdout).toMatch(/EXAMPLES?\n {2}forcemeat /)
      expect(stdout).toContain('EXIT CODES')
      const page = readFileSync(join(root, 'docs/cli.md'), 'utf8')
      expect(page).toContain(`## forcemeat ${name}`)
      const codes = [...stdout.slice(stdout.indexOf('EXIT CODES')).matchAll(/^ {2}(\d+) {2}/gm)].map((m) => m[1]!)
      const section = page.slice(page.indexOf(`## forcemeat ${name}`)).split('\n## ')[0]!
      for (const code of codes) expect(section, `${name} ${code}`).toMatch(new RegExp(`\\b${code}\\b`))
    },
  )

  it.each([
    ['no command', []],
    ['an unknown command', ['cook']],
    ['a name of the language itself', ['__proto__']],
    ['an unknown option', ['verify', '--frob']],
    ['a word too many', ['verify', 'now']],
    ['an option without its value', ['verify', '--folder']],
    ['a missing argument', ['sheet']],
    ['an unusable port', ['serve', '--port', 'abc']],
    ['a record that is not there', ['verify', '--folder', '/nonexistent/record']],
    ['a logger file that is not there', ['judge', '/nonexistent.csv']],
    ['an unknown calculation', ['calc', 'cure.spooned']],
    ['a calculation without a name', ['calc']],
  ] as const)('exits 2 with a word on standard error for %s', (_title, args) => {
    const { status, stdout, stderr } = run(args)
    expect(status).toBe(2)
    expect(stdout).toBe('')
    expect(stderr.length).toBeGreaterThan(10)
    expect(stderr).not.toContain('    at ')
    expect(stderr).not.toContain('\u001B')
    expect(existsSync(at('record'))).toBe(false)
  })

  it.each(['', '{', 'null', '[]', '"x"'])('calc exits 2 with nothing on standard output for %j', (input) => {
    const { status, stdout, stderr } = run(['calc', 'cure.ingoing'], input)
    expect([status, stdout]).toEqual([2, ''])
    for (const line of stderr.trim().split('\n')) expect(line).toMatch(/^[^:]+: .+; allowed: /)
  })

  it('stops without a word where its reader has gone', async () => {
    const child = spawn(process.execPath, [bin, 'calc', 'cure.ingoing', '--schema'], {
      stdio: ['ignore', 'pipe', 'pipe'],
    })
    child.stdout.destroy()
    let stderr = ''
    child.stderr.on('data', (part: Buffer) => (stderr += part.toString()))
    await new Promise((resolve) => child.on('close', resolve))
    expect(stderr).toBe('')
    expect(child.signalCode).toBeNull()
  })

  it('starts in an older Node by way of the one the project pins', () => {
    const older = ['/usr/bin/node', '/usr/local/bin/node'].find(
      (p) => existsSync(p) && Number(/v(\d+)/.exec(spawnSync(p, ['-v'], { encoding: 'utf8' }).stdout)?.[1]) < 24,
    )
    const { status, stdout } = spawnSync(older ?? process.execPath, [bin, 'calc', '--list'], { encoding: 'utf8' })
    expect(status).toBe(0)
    expect(stdout).toContain('cure.ingoing')
  })
})

describe('the record on the command line', () => {
  it('is filled, verified, backed up, exported, taken in again and restored, with one head all the way', () => {
    const rec = ['--folder', at('rec')]
    expect(run(['demo', ...rec]).status).toBe(0)
    expect(run(['demo', ...rec]).status, 'a second time').toBe(2)
    const verified = run(['verify', ...rec, '--json'])
    expect(verified.status).toBe(0)
    const { head, entries } = JSON.parse(verified.stdout) as { head: string; entries: number }
    expect(entries).toBeGreaterThan(50)
    expect(run(['verify', ...rec, '--expect', `${entries}:${head}`]).status).toBe(0)
    expect(run(['verify', ...rec, '--expect', `${entries + 1}:${head}`]).status).toBe(1)
    expect(run(['verify', ...rec, '--expect', 'x']).status).toBe(2)

    const copied = run(['backup', at('copy.db'), ...rec, '--json'])
    expect(copied.status, copied.stderr).toBe(0)
    expect(JSON.parse(copied.stdout)).toMatchObject({ head, entries })
    expect(run(['backup', at('copy.db'), ...rec]).status, 'never written over').toBe(2)

    expect(run(['export', at('plain'), ...rec]).status).toBe(0)
    expect(readFileSync(at('plain', 'entries.jsonl'), 'utf8').trim().split('\n')).toHaveLength(entries)
    const taken = run(['import', at('plain'), '--folder', at('rec2'), '--json'])
    expect(taken.status, taken.stderr).toBe(0)
    expect(JSON.parse(taken.stdout)).toMatchObject({ head, entries })
    expect(run(['import', at('plain'), '--folder', at('rec2')]).status, 'not empty').toBe(2)

    const restored = run(['restore', at('copy.db'), '--folder', at('rec3'), '--json'])
    expect(restored.status, restored.stderr).toBe(0)
    expect(JSON.parse(restored.stdout)).toMatchObject({ head, entries })
    expect(run(['restore', at('none.db'), '--folder', at('rec3')]).status).toBe(2)
  })

  it('prints sheets as PDF to a file or to standard output', () => {
    const rec = ['--folder', at('rec')]
    const batch = 'RING-0117'
    expect(run(['sheet', batch, ...rec, '-o', at('sheet.pdf')]).status).toBe(0)
    expect(readFileSync(at('sheet.pdf')).subarray(0, 5).toString()).toBe('%PDF-')
    const out = spawnSync(process.execPath, [
      bin,
      'sheet',
      batch,
      ...rec,
      '--paper',
      'cook-and-chill',
      '--size',
      'Letter',
      '-o',
      '-',
    ])
    expect(out.status).toBe(0)
    expect(out.stdout.subarray(0, 5).toString()).toBe('%PDF-')
    expect(run(['sheet', 'NONE', ...rec]).status).toBe(2)
    expect(run(['sheet', batch, ...rec, '--size', 'A3']).status).toBe(2)
  })

  it('sets a passphrase from standard input, for its owner only, and refuses a short one', () => {
    const rec = ['--folder', at('rec')]
    expect(run(['passphrase', ...rec], 'short\n').status).toBe(2)
    expect(existsSync(at('rec', 'passphrase'))).toBe(false)
    expect(run(['passphrase', ...rec], 'nine links on a rod\n').status).toBe(0)
    expect(statSync(at('rec', 'passphrase')).mode & 0o777).toBe(0o600)
    expect(readFileSync(at('rec', 'passphrase'), 'utf8')).not.toContain('links')
    expect(run(['passphrase', ...rec, '--remove']).status).toBe(0)
    expect(existsSync(at('rec', 'passphrase'))).toBe(false)
  })

  it('serves until asked to stop, then ends with 0; wider than this machine it exits 4 without a passphrase', async () => {
    expect(run(['serve', '--folder', at('wide'), '--host', '0.0.0.0', '--port', '0']).status).toBe(4)
    expect(existsSync(at('wide'))).toBe(false)
    const child = spawn(process.execPath, [bin, 'serve', '--folder', at('served'), '--port', '0', '--quiet'])
    const url = await new Promise<string>((resolve) => {
      child.stdout.on('data', (part: Buffer) => {
        const found = /http:\S+/.exec(part.toString())
        if (found) resolve(found[0])
      })
    })
    expect(await (await fetch(`${url}api/health`)).json()).toMatchObject({ ok: true, entries: 0 })
    const ended = new Promise((resolve) => child.on('exit', resolve))
    child.kill('SIGTERM')
    expect(await ended).toBe(0)
  })
})

describe('judging a logger file', () => {
  const log = (chillTau: number): string => {
    const rows = ['Time,Core (°C),House (°C)']
    let core = 6
    for (let m = 0; m <= 1500; m += 1) {
      const house = m < 210 ? 80 : 0
      core += (house - core) / (m < 210 ? 40 : chillTau)
      rows.push(
        `${new Date(Date.UTC(2026, 10, 21, 6, m)).toISOString().slice(0, 16).replace('T', ' ')},${core.toFixed(2)},${house}`,
      )
    }
    return rows.join('\n')
  }
  const judge = (name: string, text: string, ...more: string[]) => {
    writeFileSync(at(name), text)
    return run(['judge', at(name), ...more])
  }

  it('exits 0 for a cook and chill that meet the tables', () => {
    const { status, stdout } = judge('good.csv', log(35), '--species', 'meat', '--no-cured')
    expect(status, stdout).toBe(0)
    expect(stdout).toMatch(/verdict {3}✓ pass/)
    expect(stdout).toContain('Appendix B option 1')
  })
  it('exits 1 for a chill that is too slow', () => {
    const { status, stdout } = judge('slow.csv', log(250), '--species', 'meat', '--no-cured')
    expect(status, stdout).toBe(1)
    expect(stdout).toContain('× FAIL')
  })
  it('exits 3 where the chill is not asked about, where the species is not said, and where the check of the probe is overdue', () => {
    expect(judge('a.csv', log(35), '--species', 'meat').status).toBe(3)
    expect(judge('a.csv', log(35), '--species', 'meat', '--no-cured', '--check-overdue').status).toBe(3)
    expect(judge('a.csv', log(35), '--species', 'meat', '--cook-only').status).toBe(0)
  })
  it('exits 3 and asks with the option that answers where the file leaves its dates open', () => {
    const rows = Array.from({ length: 30 }, (_, i) => `03/04/2026 06:${String(i + 10)},${20 + i}`)
    const text = ['Time,Core (°C)', ...rows].join('\n')
    const { status, stdout } = judge('dates.csv', text, '--species', 'meat', '--no-cured')
    expect(status, stdout).toBe(3)
    expect(stdout).toMatch(/asked.*--date-order/)
  })
  it('exits 2 for a file that is no log, and for an option that is no word of its list', () => {
    expect(judge('no.csv', 'hello\nworld\n').status).toBe(2)
    expect(judge('a.csv', log(35), '--species', 'fish').status).toBe(2)
    expect(judge('a.csv', log(35), '--tolerance-c', 'much').status).toBe(2)
  })
  it('takes the humidity of the cook from its options: met, missed and exempt', () => {
    const humid = (...more: string[]) => judge('h.csv', log(35), '--species', 'meat', '--no-cured', ...more)
    const met = humid('--humidity-option', '1', '--humid-minutes', '120', '--cook-minutes', '210')
    expect([met.status, met.stdout]).toEqual([0, expect.stringContaining('120 of 210 min')])
    const missed = humid('--humidity-option', '1', '--humid-minutes', '30', '--cook-minutes', '210')
    expect([missed.status, missed.stdout]).toEqual([1, expect.stringMatching(/verdict {3}× FAIL/)])
    expect(humid('--casing').stdout).toContain('humidity is not asked of it')
    expect(humid('--casing', '--humidity-option', '1').status).toBe(2)
    expect(humid('--humid-minutes', '30').stderr).toContain('--humidity-option')
    expect(humid('--humidity-option', '5').stderr).toContain('--humidity-option: is "5"; allowed: one of 1, 2, 3, 4')
  })
  it('takes nitrite as a cured product, and refuses figures that would go unused', () => {
    const { status, stdout } = judge('n.csv', log(35), '--species', 'meat', '--nitrite-ppm', '90')
    expect([status, stdout]).toEqual([
      0,
      expect.stringContaining('asks at least 100 ppm of ingoing sodium nitrite; 90'),
    ])
    expect(judge('n.csv', log(35), '--no-cured', '--nitrite-ppm', '150').status).toBe(2)
    const bare = judge('n.csv', log(35), '--species', 'meat', '--nitrite-ppm', '150').stdout
    expect(bare).toMatch(/not known: ingoing erythorbate/)
    const said = judge('n.csv', log(35), '--species', 'meat', '--nitrite-ppm', '150', '--erythorbate-ppm', '300').stdout
    expect(said).not.toMatch(/not known: ingoing erythorbate/)
    expect(judge('n.csv', log(35), '--erythorbate-ppm', '500').stderr).toContain('--erythorbate-ppm: goes unused')
    expect(judge('n.csv', log(35), '--salt-pct', '2').stderr).toContain('--salt-pct: goes unused')
  })
  it('says plainly that a file is not there', () => {
    expect(run(['judge', at('none.csv')]).stderr).toContain('none.csv: no such file')
    expect(run(['judge', at('.')]).stderr).toContain('is not a file')
  })
  it('exits 1 for a come-up over six hours, though every table is met', () => {
    const rows = ['Time,Core (°C)']
    for (let m = 0; m <= 900; m += 1) {
      const core = m < 480 ? 5 + (m * 50) / 480 : m < 520 ? 55 + (m - 480) / 2 : Math.max(3, 75 - (m - 520))
      rows.push(
        `${new Date(Date.UTC(2026, 10, 21, 6, m)).toISOString().slice(0, 16).replace('T', ' ')},${core.toFixed(2)}`,
      )
    }
    const { status, stdout } = judge('slow-up.csv', rows.join('\n'), '--species', 'meat', '--no-cured')
    expect(status, stdout).toBe(1)
    expect(stdout).toMatch(/× FAIL {8}Come-up time/)
  })
  it('prints everything as JSON, with the same exit code', () => {
    const { status, stdout } = judge('a.csv', log(35), '--species', 'meat', '--no-cured', '--json')
    expect(status).toBe(0)
    expect(JSON.parse(stdout)).toMatchObject({ verdict: 'pass', rows: 1501 })
  })
})
