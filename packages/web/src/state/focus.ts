const focusable = 'input:not([type=hidden]), select, textarea, button, a[href], summary'
/** How long after a recording its page may still be drawn anew, ms. */
const settles = [0, 120, 350, 800, 1600]

/**
 * Keeps the keyboard where the work is after a form was sent: a button that is disabled while it sends, or a form that is gone once its line
 * is done, would drop the focus to the top of the page. It goes to what the form says, or to the next field after it where the form is gone;
 * never away from where somebody has put it meanwhile.
 */
export function keepFocus(): () => void {
  if (typeof document === 'undefined') return () => undefined
  const form = document.activeElement?.closest('form')
  if (!form) return () => undefined
  const after = [...document.querySelectorAll<HTMLElement>(`main :is(${focusable})`)].filter(
    (e) => (form.compareDocumentPosition(e) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0 && !form.contains(e),
  )
  const place = (): void => {
    const at = document.activeElement
    if (at !== null && at !== document.body) return
    const said = form.isConnected ? form.querySelector<HTMLElement>('[role="status"]') : null
    const next = said ?? after.find((e) => e.isConnected && !e.matches(':disabled')) ?? document.getElementById('page')
    next?.focus()
  }
  return () => settles.forEach((ms) => setTimeout(() => requestAnimationFrame(place), ms))
}
