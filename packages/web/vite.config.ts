import { createHash } from 'node:crypto'
import { defineConfig, type Plugin } from 'vite'

/** Writes the files of the build into the script that keeps them in the browser. */
const listBuilt: Plugin = {
  name: 'list-built',
  generateBundle(_options, bundle) {
    const keeper = bundle['offline.js']
    if (keeper?.type !== 'chunk') throw new Error('the build has no offline.js')
    const made = Object.values(bundle).filter((f) => f !== keeper)
    const files = ['/index.html', '/mark.svg', ...made.map((f) => `/${f.fileName}`)]
    const name = createHash('sha256')
    for (const f of made) name.update(f.fileName).update(f.type === 'chunk' ? f.code : f.source)
    const list = JSON.stringify({ name: name.digest('hex').slice(0, 16), files: [...new Set(files)] })
    keeper.code = keeper.code.replace('__BUILT__', list)
  },
}

export default defineConfig({
  root: import.meta.dirname,
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  plugins: [listBuilt],
  build: {
    outDir: 'dist',
    emptyOutDir: true,
    target: 'es2024',
    // A data address in a style sheet or script would need a looser content-security policy.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 1500,
    rolldownOptions: {
      input: {
        index: `${import.meta.dirname}/index.html`,
        offline: `${import.meta.dirname}/src/away/worker.ts`,
      },
      // At the root, under one name: a browser looks there again for a newer one, and it holds for every page.
      output: { entryFileNames: (c) => (c.name === 'offline' ? 'offline.js' : 'assets/[name]-[hash].js') },
    },
  },
  worker: { format: 'es' },
  server: { proxy: { '/api': 'http://127.0.0.1:8117', '/paper': 'http://127.0.0.1:8117' } },
})
