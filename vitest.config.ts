import { defineConfig } from 'vitest/config'

process.env['TZ'] = 'UTC'

export default defineConfig({
  test: {
    include: ['packages/*/test/**/*.test.ts', 'test/**/*.test.ts'],
    testTimeout: 30_000,
    reporters: process.env['CI'] ? ['default'] : ['default'],
  },
})
