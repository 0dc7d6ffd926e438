import { defineConfig } from 'vite'

export default defineConfig({
  root: import.meta.dirname,
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    outDir: 'dist',
    emptyOutDir: true,
    target: 'es2024',
    // A data address in a style sheet or script would need a looser content-security policy.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 1500,
  },
  worker: { format: 'es' },
  server: { proxy: { '/api': 'http://127.0.0.1:8117', '/paper': 'http://127.0.0.1:8117' } },
})
