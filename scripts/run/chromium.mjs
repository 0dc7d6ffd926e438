import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'

const places = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome']

/** Path of a Chromium, from FORCEMEAT_CHROMIUM or Debian's package; undefined where there is none. */
export const findChromium = () => [process.env.FORCEMEAT_CHROMIUM, ...places].find((p) => p && existsSync(p))

const apt = (args) =>
  spawnSync('apt-get', args, {
    stdio: ['ignore', 'ignore', 'inherit'],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  }).status === 0

/** Install Debian packages that the browser, paper and bar code tests need, where they are missing and it may; say so where it cannot. */
export function ensureTestPackages() {
  const missing = [
    ...(findChromium() ? [] : ['chromium']),
    ...(existsSync('/usr/bin/pdftotext') ? [] : ['poppler-utils']),
    ...(existsSync('/usr/bin/zbarimg') ? [] : ['zbar-tools']),
    ...(existsSync('/usr/bin/dmtxread') ? [] : ['dmtx-utils']),
  ]
  if (missing.length === 0) return true
  console.error(`forcemeat: the tests need the Debian packages ${missing.join(', ')}; installing them…`)
  const isRoot = process.getuid?.() === 0
  if (
    isRoot &&
    existsSync('/usr/bin/apt-get') &&
    apt(['update', '-qq']) &&
    apt(['install', '-y', '-qq', '--no-install-recommends', ...missing])
  )
    return true
  console.error(
    `forcemeat: could not install ${missing.join(', ')}. As an administrator: apt-get install ${missing.join(' ')}; or set FORCEMEAT_CHROMIUM to a Chromium.`,
  )
  return false
}
