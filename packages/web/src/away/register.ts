import { recordVersion } from '../state/live.ts'

/**
 * Have this browser keep the workbench for when the line is down. Browsers allow it at an address of the machine itself or one with TLS;
 * elsewhere entries still wait in the page, but the page cannot be opened anew without a line.
 */
export function keepForAway(): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return
  const first = navigator.serviceWorker.controller === null
  navigator.serviceWorker.addEventListener(
    'controllerchange',
    () => {
      // What was read before anybody kept it is read once more.
      if (first) recordVersion.value += 1
    },
    { once: true },
  )
  navigator.serviceWorker.register('/offline.js').catch(() => {
    // Not signed in yet, or storage refused: the next page tries again.
  })
}
