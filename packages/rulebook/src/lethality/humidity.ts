import type { Humidity } from '@forcemeat/craft/heat/lethality'
import { humidityOptions } from '../../data/lethality/process.ts'
import type { Outcome } from './hold.ts'

const exempt: Readonly<Record<NonNullable<Humidity['exempt']>, string>> = {
  immersed: 'cooked immersed in liquid throughout',
  'impermeable-bag': 'cooked sealed in an impermeable bag',
  'moisture-holding-casing': 'in a casing that holds moisture (natural, cellulose, collagen, fibrous, plastic)',
  'large-piece-hot-oven': 'a piece of at least 10 lb in an oven of at least 250 °F',
  'direct-heat': 'cooked by direct heat',
  patty: 'a patty of 9 CFR 318.23',
}

/** Hold what is known of the humidity of a cook against the options of the guideline and its exemptions. */
export function judgeHumidity(humidity: Humidity | undefined, metRowF: number | undefined): Outcome {
  if (humidity?.exempt !== undefined)
    return { verdict: 'pass', because: `humidity is not asked of it: ${exempt[humidity.exempt]}` }
  const settle =
    'which humidity option the cook followed and for how long, or why none is needed (casing, bag, immersion, direct heat)'
  if (humidity?.option === undefined)
    return { verdict: 'cannot-tell', because: 'nothing is known of the humidity of the cook', settle }
  const option = humidityOptions.find((o) => o.option === humidity.option)!
  const { cookMinutes, heldMinutes } = humidity
  if (cookMinutes === undefined || heldMinutes === undefined)
    return {
      verdict: 'cannot-tell',
      because: `option ${option.option} (${option.text}): ${cookMinutes === undefined ? 'the cooking time' : 'how long it was held'} is not known`,
      settle,
    }
  const limit = Math.max(option.share * cookMinutes, option.minMinutes)
  const found = { measured: heldMinutes, limit, margin: heldMinutes - limit }
  const text = `option ${option.option}, ${option.text}: ${heldMinutes} of ${cookMinutes} min, at least ${limit} min`
  if (heldMinutes < limit) return { verdict: 'fail', because: text, ...found }
  if (cookMinutes < option.minCookMinutes)
    return {
      verdict: 'fail',
      because: `${text}; the cook itself must last at least ${option.minCookMinutes} min`,
      ...found,
    }
  if (option.fromF !== undefined && (metRowF === undefined || metRowF < option.fromF))
    return {
      verdict: metRowF === undefined ? 'cannot-tell' : 'fail',
      because: `${text}; it serves end points of ${option.fromF} °F and above only`,
      ...(metRowF === undefined ? { settle: 'a lethality row that is met' } : {}),
      ...found,
    }
  return { verdict: 'pass', because: text, ...found }
}
