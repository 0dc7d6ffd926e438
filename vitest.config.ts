import { defineConfig } from 'vitest/config'

process.env['TZ'] = 'UTC'

export default defineConfig({
  test: {
    include: ['packages/*/test/**/*.test.ts', 'test/**/*.test.ts'],
    testTimeout: 30_000,
    // Much of a browser test is waiting: two at once on two cores, where one would be the default.
    maxWorkers: 2,
    reporters: process.env['CI'] ? ['default'] : ['default'],
  },
})
