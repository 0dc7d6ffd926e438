import type { Allergen } from '../../label-rules.ts'
import type { LabelLanguage } from '../languages.ts'

/** How an allergen is said in a language, and every word that names it, as a pattern. Words by Annex II of Regulation (EU) 1169/2011. */
export type AllergenTerm = { readonly say: string; readonly words: readonly string[] }
type Other = Exclude<LabelLanguage, 'en'>

const L = '\\p{L}*'

export const allergenTerms: Readonly<Record<Other, Readonly<Record<Allergen, AllergenTerm>>>> = {
  fr: {
    wheat: { say: 'blé', words: ['blé', 'froment', 'épeautre', 'triticale'] },
    'gluten-cereal': { say: 'céréale contenant du gluten', words: ['seigle', 'orge', 'avoine', 'gluten'] },
    crustacean: { say: 'crustacés', words: ['crustacés?', 'crevettes?', 'crabe', 'homard'] },
    egg: { say: 'œuf', words: ['œufs?', 'oeufs?'] },
    fish: { say: 'poisson', words: ['poissons?', 'anchois', 'thon', 'saumon', 'hareng'] },
    peanut: { say: 'arachide', words: ['arachides?'] },
    soy: { say: 'soja', words: ['soja', 'soya'] },
    milk: { say: 'lait', words: ['lait'] },
    'tree-nut': { say: 'fruits à coque', words: ['amandes?', 'noisettes?', 'noix', 'pistaches?', 'fruits à coque'] },
    celery: { say: 'céleri', words: ['céleri'] },
    mustard: { say: 'moutarde', words: ['moutarde'] },
    sesame: { say: 'sésame', words: ['sésame'] },
    sulphite: { say: 'sulfites', words: ['sulfites?', 'anhydride sulfureux'] },
    lupin: { say: 'lupin', words: ['lupin'] },
    mollusc: { say: 'mollusques', words: ['mollusques?', 'moules?', 'huîtres?'] },
  },
  es: {
    wheat: { say: 'trigo', words: ['trigo', 'espelta'] },
    'gluten-cereal': { say: 'cereal con gluten', words: ['centeno', 'cebada', 'avena', 'gluten'] },
    crustacean: { say: 'crustáceos', words: ['crustáceos?', 'gambas?', 'cangrejo'] },
    egg: { say: 'huevo', words: ['huevos?'] },
    fish: { say: 'pescado', words: ['pescado', 'anchoas?', 'atún', 'salmón', 'arenque'] },
    peanut: { say: 'cacahuete', words: ['cacahuetes?'] },
    soy: { say: 'soja', words: ['soja'] },
    milk: { say: 'leche', words: ['leche'] },
    'tree-nut': {
      say: 'frutos de cáscara',
      words: ['almendras?', 'avellanas?', 'nueces', 'nuez', 'pistachos?', 'frutos de cáscara'],
    },
    celery: { say: 'apio', words: ['apio'] },
    mustard: { say: 'mostaza', words: ['mostaza'] },
    sesame: { say: 'sésamo', words: ['sésamo'] },
    sulphite: { say: 'sulfitos', words: ['sulfitos?', 'dióxido de azufre'] },
    lupin: { say: 'altramuces', words: ['altramuces', 'altramuz'] },
    mollusc: { say: 'moluscos', words: ['moluscos?', 'mejillón', 'ostras?'] },
  },
  de: {
    wheat: { say: 'Weizen', words: [`${L}weizen${L}`, `dinkel${L}`] },
    'gluten-cereal': {
      say: 'glutenhaltiges Getreide',
      words: [`${L}roggen${L}`, `gersten?${L}`, `hafer${L}`, `gluten${L}`],
    },
    crustacean: { say: 'Krebstiere', words: ['krebstiere?', 'garnelen?', 'krabben?'] },
    egg: {
      say: 'Ei',
      words: ['ei', 'eier', 'eigelb', 'eiklar', 'hühnerei', 'eipulver', 'volleipulver', 'eiklarpulver'],
    },
    fish: { say: 'Fisch', words: [`${L}fische?`, 'sardellen?', 'thunfisch', 'lachs', 'hering'] },
    peanut: { say: 'Erdnüsse', words: [`erdn[uü]ss${L}`, 'erdnuss'] },
    soy: { say: 'Soja', words: [`soja${L}`] },
    milk: { say: 'Milch', words: [`${L}milch${L}`] },
    'tree-nut': {
      say: 'Schalenfrüchte',
      words: ['mandeln?', 'haseln[uü]ss\\p{L}*', 'waln[uü]ss\\p{L}*', 'pistazien?', 'schalenfrüchte'],
    },
    celery: { say: 'Sellerie', words: [`${L}sellerie${L}`] },
    mustard: { say: 'Senf', words: [`senf${L}`] },
    sesame: { say: 'Sesam', words: [`sesam${L}`] },
    sulphite: { say: 'Sulfite', words: ['sulfite?', 'schwefeldioxid'] },
    lupin: { say: 'Lupinen', words: [`lupinen?${L}`] },
    mollusc: { say: 'Weichtiere', words: ['weichtiere?', 'muscheln?', 'austern?'] },
  },
  it: {
    wheat: { say: 'frumento', words: ['frumento', 'grano', 'farro'] },
    'gluten-cereal': { say: 'cereale contenente glutine', words: ['segale', 'orzo', 'avena', 'glutine'] },
    crustacean: { say: 'crostacei', words: ['crostacei', 'gamberi', 'granchio'] },
    egg: { say: 'uovo', words: ['uovo', 'uova'] },
    fish: { say: 'pesce', words: ['pesce', 'acciughe?', 'acciuga', 'tonno', 'salmone', 'aringa'] },
    peanut: { say: 'arachidi', words: ['arachidi', 'arachide'] },
    soy: { say: 'soia', words: ['soia'] },
    milk: { say: 'latte', words: ['latte'] },
    'tree-nut': { say: 'frutta a guscio', words: ['mandorle?', 'nocciole?', 'noci', 'pistacchi', 'frutta a guscio'] },
    celery: { say: 'sedano', words: ['sedano'] },
    mustard: { say: 'senape', words: ['senape'] },
    sesame: { say: 'sesamo', words: ['sesamo'] },
    sulphite: { say: 'solfiti', words: ['solfiti', 'anidride solforosa'] },
    lupin: { say: 'lupini', words: ['lupini', 'lupino'] },
    mollusc: { say: 'molluschi', words: ['molluschi', 'cozze', 'ostriche'] },
  },
  nl: {
    wheat: { say: 'tarwe', words: [`tarwe${L}`, 'spelt'] },
    'gluten-cereal': { say: 'glutenbevattende granen', words: [`rogge${L}`, `gerst${L}`, `haver${L}`, 'gluten'] },
    crustacean: { say: 'schaaldieren', words: ['schaaldieren', 'garnalen?', 'krab'] },
    egg: { say: 'ei', words: ['ei', 'eieren', 'eigeel', 'eiwit', 'eipoeder', 'eiwitpoeder'] },
    fish: { say: 'vis', words: ['vis', 'ansjovis', 'tonijn', 'zalm', 'haring'] },
    peanut: { say: 'pinda', words: [`pinda${L}`, `aardnoten`] },
    soy: { say: 'soja', words: [`soja${L}`] },
    milk: { say: 'melk', words: [`${L}melk${L}`] },
    'tree-nut': { say: 'noten', words: ['amandelen', 'hazelnoten', 'walnoten', 'pistachenoten', 'noten'] },
    celery: { say: 'selderij', words: [`selderij${L}`, `selderie${L}`] },
    mustard: { say: 'mosterd', words: [`mosterd${L}`] },
    sesame: { say: 'sesam', words: [`sesam${L}`] },
    sulphite: { say: 'sulfieten', words: ['sulfiet', 'sulfieten', 'zwaveldioxide'] },
    lupin: { say: 'lupine', words: [`lupine${L}`] },
    mollusc: { say: 'weekdieren', words: ['weekdieren', 'mosselen', 'oesters'] },
  },
}

/** Cereals with gluten that are no wheat, by their English word; which one is in a food has to be said. */
export const cerealTerms: Readonly<Record<'rye' | 'barley' | 'oat', Readonly<Record<Other, AllergenTerm>>>> = {
  rye: {
    fr: { say: 'seigle', words: ['seigle'] },
    es: { say: 'centeno', words: ['centeno'] },
    de: { say: 'Roggen', words: [`${L}roggen${L}`] },
    it: { say: 'segale', words: ['segale'] },
    nl: { say: 'rogge', words: [`rogge${L}`] },
  },
  barley: {
    fr: { say: 'orge', words: ['orge'] },
    es: { say: 'cebada', words: ['cebada'] },
    de: { say: 'Gerste', words: [`gersten?${L}`] },
    it: { say: 'orzo', words: ['orzo'] },
    nl: { say: 'gerst', words: [`gerst${L}`] },
  },
  oat: {
    fr: { say: 'avoine', words: ['avoine'] },
    es: { say: 'avena', words: ['avena'] },
    de: { say: 'Hafer', words: [`hafer${L}`] },
    it: { say: 'avena', words: ['avena'] },
    nl: { say: 'haver', words: [`haver${L}`] },
  },
}
