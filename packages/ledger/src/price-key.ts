/** How prices of one thing are told apart: by the day they hold from, and the supplier where they are one's own. */
export const priceKey = ({
  from,
  supplier,
}: {
  readonly from: string
  readonly supplier?: string | undefined
}): string => (supplier === undefined ? from : `${from} ${supplier}`)
