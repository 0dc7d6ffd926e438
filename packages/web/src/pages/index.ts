import type { Page } from '../app.tsx'

/** The pages, in the order they lie on the bench. */
export const pages: readonly Page[] = []
