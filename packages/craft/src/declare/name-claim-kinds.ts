import { figures } from '../rules.ts'
import {
  borne,
  contradicted,
  heldIn,
  isFlesh,
  isOf,
  materialOf,
  starts,
  unproved,
  type ClaimFacts,
  type NameClaim,
} from './name-claim-facts.ts'
import { saidAt } from './name-claim-words.ts'

/** Kinds a name says: cured, cooked, dried, fresh … */
export function kindClaims(name: string, facts: ClaimFacts): NameClaim[] {
  return figures('nameClaimWords').kinds.flatMap((k) => {
    if (saidAt(name, k).length === 0) return []
    const { needs } = k
    const heated = needs.orHeated === true && facts.heatTreated === true
    const wrong = [
      ...(needs.kinds && !needs.kinds.includes(facts.kind) && !heated
        ? [`its recipe is of the kind ${facts.kind}`]
        : []),
      ...(needs.cured !== undefined && needs.cured !== facts.cured
        ? [facts.cured ? 'it holds nitrite or nitrate' : 'it holds neither nitrite nor nitrate']
        : []),
      ...(needs.smoked === true && !facts.smoked ? ['its recipe is not smoked'] : []),
      ...(needs.readyToEat === true && !facts.readyToEat ? ['its recipe is not one eaten as sold'] : []),
      ...(needs.notFrozen === true && facts.frozen ? ['it is sold frozen'] : []),
      ...(needs.species && !facts.items.some((i) => i.kg > 0 && isFlesh(i) && isOf({ species: needs.species! }, i))
        ? [`no ${needs.species.join(' or ')} went in`]
        : []),
    ]
    if (wrong.length > 0 && k.ask !== undefined) return [unproved(k.say, wrong.join(' and '), k.ask)]
    return wrong.length === 0
      ? [borne(k.say)]
      : [contradicted(k.say, wrong.join(' and '), `take "${k.say}" out of the name`)]
  })
}

/** A name that ends in a piece of meat is of that piece alone. */
export function pieceClaims(name: string, facts: ClaimFacts): NameClaim[] {
  return figures('nameClaimWords').endsInMeat.flatMap((p) => {
    if (!saidAt(name, p).some(({ end }) => end === name.length)) return []
    const others = facts.items.filter((i) => i.kg > 0 && isFlesh(i) && !starts(p.materials, i.material))
    return others.length === 0
      ? []
      : [
          contradicted(
            p.say,
            `it is made of ${[...new Set(others.map((i) => materialOf(i)!.name))].join(', ')}`,
            'name it as what it is',
          ),
        ]
  })
}

export function dietClaims(name: string, facts: ClaimFacts): NameClaim[] {
  return figures('nameClaimWords').diets.flatMap((d) => {
    if (saidAt(name, d).length === 0) return []
    const holds = heldIn(d.notWith, facts)
    return holds.length > 0
      ? [contradicted(d.say, `it holds ${holds.join(', ')}`, `take "${d.say}" out of the name`)]
      : [unproved(d.say, 'no list shows it; it rests on a certificate', 'name the certificate and who gave it')]
  })
}

export const documentClaims = (name: string): NameClaim[] =>
  figures('nameClaimWords').documents.flatMap((d) =>
    saidAt(name, d).length === 0
      ? []
      : [
          unproved(
            d.say,
            `no list shows it; it rests on a document: ${d.document}`,
            `name the document: ${d.document}`,
          ),
        ],
  )
