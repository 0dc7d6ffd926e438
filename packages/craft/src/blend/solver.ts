import loadHighs, { type Highs } from 'highs'

/**
 * The linear and integer solver, loaded once when this module is first imported, so that solving itself can be synchronous.
 * Its glue finds `highs.wasm` beside itself: through the file system in Node, through the bundler's asset in a page. It uses no
 * `eval`; a page's policy needs 'wasm-unsafe-eval' only. A failed load is kept and told at the first solve, so that everything
 * that needs no solver still works.
 */
const loaded: { readonly highs: Highs } | { readonly failure: string } = await loadHighs().then(
  (highs) => ({ highs }),
  (reason: unknown) => ({ failure: reason instanceof Error ? reason.message : String(reason) }),
)

/** The solver. @throws Error where its binary could not be loaded on this machine. */
export function solver(): Highs {
  if ('highs' in loaded) return loaded.highs
  throw new Error(`the blend solver could not be loaded: ${loaded.failure}`)
}
