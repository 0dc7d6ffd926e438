import { findMaterial } from '../../materials/materials.ts'
import { figures } from '../../rules.ts'
import type { LabelItem } from '../label-item.ts'
import { labelName } from '../label-name.ts'
import { namedIngredients } from '../name-claims.ts'
import type { LabelInput } from './schema.ts'

/** Used in small quantities for their flavour, of which no quantity is asked (Regulation (EU) 1169/2011, Annex VIII, point 1(a)(iii), from memory). */
const flavouring = ['spice', 'herb']

/** A whole percent, or a tenth where it is under one; never more than went in. */
const rounded = (pct: number): number => (pct >= 1 ? Math.floor(pct + 1e-9) : Math.floor(pct * 10 + 1e-9) / 10)

/**
 * Items with the quantity of every ingredient the name of the product names beside them; meat has its own reckoning. As put in, of the
 * finished product where weight is lost.
 *
 * @source Regulation (EU) 1169/2011, Article 22(1)(a), Annex VIII, point 3(a); Food Standards Code, Standard 1.2.10
 */
export function withNamedQuid(
  items: readonly LabelItem[],
  { place, pack, product, lossPct = 0 }: LabelInput,
  totalKg: number,
): LabelItem[] {
  const { quid } = figures('labelling').places[place]!
  if (quid === undefined) return [...items]
  const waterKg = items.reduce((s, i) => s + (findMaterial(i.material ?? '')?.category === 'water' ? i.kg : 0), 0)
  const lostKg = (totalKg * lossPct) / 100
  const basisKg = totalKg - (quid === 'ingoing weight' ? Math.min(waterKg, lostKg) : lostKg)
  const names = [pack.name ?? product.name, ...(pack.languages ?? []).flatMap((l) => l.name ?? [])]
  const read = items.map((i) => ({
    material: i.material ?? '',
    kg: i.kg,
    texts: [...(i.name === undefined ? [] : [i.name]), ...(i.parts ?? []).map((p) => p.name)],
  }))
  const named = new Set(names.flatMap((n) => namedIngredients(n, read).flatMap((f) => f.items)))
  return items.map((item, n) => {
    const category = findMaterial(item.material ?? '')?.category ?? ''
    if (!named.has(n) || item.quidPct !== undefined || flavouring.includes(category)) return item
    const own = labelName(item, place)
    const kg = items.reduce((s, i) => s + (labelName(i, place) === own ? i.kg : 0), 0)
    return { ...item, quidPct: rounded((100 * kg) / basisKg) }
  })
}

/** Meat of one kind of animal that goes by several names, lamb and mutton, shares the quantity of the animal by weight. */
export function sharedByName(items: readonly LabelItem[], place: string): LabelItem[] {
  const animal = (i: LabelItem) => (i.quidPct === undefined ? undefined : findMaterial(i.material ?? '')?.species)
  const kgOf = (test: (i: LabelItem) => boolean) => items.reduce((s, i) => s + (test(i) ? i.kg : 0), 0)
  return items.map((item) => {
    const species = animal(item)
    if (species === undefined || item.quidPct === undefined) return item
    const own = labelName(item, place)
    const all = kgOf((i) => animal(i) === species)
    const mine = kgOf((i) => animal(i) === species && labelName(i, place) === own)
    if (all <= 0 || mine >= all * (1 - 1e-9)) return item
    const pct = (item.quidPct * mine) / all
    return { ...item, quidPct: Number.isInteger(item.quidPct) ? Math.floor(pct + 1e-9) : pct }
  })
}
