import { existsSync } from 'node:fs'
import { chromium, type Browser } from 'playwright-core'

/** Chromium for the browser tests: FORCEMEAT_CHROMIUM, or where Debian puts it. */
export const chromiumPath = [process.env['FORCEMEAT_CHROMIUM'], '/usr/bin/chromium'].find((p) => p && existsSync(p))

export const launch = (): Promise<Browser> => {
  if (!chromiumPath) throw new Error('no Chromium: apt-get install chromium, or set FORCEMEAT_CHROMIUM')
  return chromium.launch({
    executablePath: chromiumPath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  })
}
