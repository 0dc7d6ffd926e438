#!/usr/bin/env node
// The arrows between rooms: each package may import only those listed below it, and the core reaches the rulebook through one port.
import { readdirSync, readFileSync, statSync } from 'node:fs'
import { dirname, join, relative, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = process.argv[2] ? resolve(process.argv[2]) : fileURLToPath(new URL('..', import.meta.url))
const may = {
  craft: [],
  rulebook: ['craft'],
  ledger: ['rulebook', 'craft'],
  server: ['ledger', 'rulebook', 'craft'],
  web: ['rulebook', 'craft'],
  cli: ['server', 'ledger', 'rulebook', 'craft'],
}
/** Rooms whose types alone may be named: what an address answers is said once, where it is answered. */
const mayName = { web: ['server', 'ledger'] }
const pure = new Set(['craft', 'rulebook'])
const pureMayUse = /^(zod|highs|ml-matrix|ml-levenberg-marquardt)(\/|$)/
/** The one file of the core that may name its port, and what it may be called. */
const portFile = 'packages/craft/src/rules.ts'

const files = (folder) =>
  readdirSync(folder).flatMap((name) => {
    const path = join(folder, name)
    if (name === 'node_modules' || name === 'dist') return []
    return statSync(path).isDirectory() ? files(path) : /\.(ts|tsx|mjs)$/.test(name) ? [path] : []
  })

// Type-only imports of the port's shape are erased at run time and cannot close a circle.
const imports = (text) =>
  [
    ...text.matchAll(
      /(?:^|\n)\s*(import|export)\s+(type\s)?(?:[^'"]*?from\s*)?['"]([^'"]+)['"]|import\(\s*['"]([^'"]+)['"]\s*\)/g,
    ),
  ].map((m) => ({
    name: m[3] ?? m[4],
    typeOnly: m[2] !== undefined,
  }))

const faults = []
for (const [room, below] of Object.entries(may)) {
  for (const path of files(join(root, 'packages', room, 'src'))) {
    const shown = relative(root, path)
    for (const { name, typeOnly } of imports(readFileSync(path, 'utf8'))) {
      const say = (why) => faults.push(`${shown}: imports ${name}: ${why}`)
      const other = /^@forcemeat\/([a-z]+)/.exec(name)?.[1]
      const named = typeOnly && mayName[room]?.includes(other)
      if (other && other !== room && !below.includes(other) && !named)
        say(`${room} may import ${below.join(', ') || 'no other room'}`)
      if (room === 'rulebook' && !typeOnly && /^@forcemeat\/craft(\/rules)?$/.test(name))
        say('the rulebook takes the core by subpath, and its port only as a type')
      if (name === '#rules' && shown !== portFile) say(`only ${portFile} may reach the port`)
      const reached = relative(join(root, 'packages', room), resolve(dirname(path), name))
      if (name.startsWith('.') && reached.startsWith('..')) say('reaches into another room by path')
      const isPackage = !name.startsWith('.') && !name.startsWith('#') && !other
      if (pure.has(room) && isPackage && !pureMayUse.test(name))
        say('the core and the rulebook are pure: no IO, no framework')
    }
  }
}
for (const fault of faults) console.error(fault)
console.log(faults.length === 0 ? 'arrows: all one way' : `arrows: ${faults.length} to change`)
process.exit(faults.length === 0 ? 0 : 1)
