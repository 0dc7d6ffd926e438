import type { Source } from '../../../source.ts'
import type { LabelLanguage } from '../languages.ts'

const fic = (section: string, edition: string, mark: Source['mark']): Source => ({
  document: 'Regulation (EU) 1169/2011, in the language editions of the Official Journal',
  section,
  edition,
  mark,
})

/** Where words of a label come from. `ours`: plain words of the trade, put into the language by this program. */
export const termSources = {
  'annex-ii': fic(
    'Annex II: allergens',
    'French, German and Italian read in reproductions of the annex; Spanish and Dutch not read',
    'quoted',
  ),
  'annex-x': fic(
    'Annex X: date of minimum durability, use by, date of freezing',
    'German read in an authority page of the Federal Information Centre for Agriculture; the others not read',
    'from-memory',
  ),
  'annex-xv': fic('Annex XV: nutrition declaration', 'not read', 'from-memory'),
  'annex-vii': fic('Annex VII: categories of additives', 'not read', 'from-memory'),
  canada: {
    document: 'Canadian Food Inspection Agency, Information within the Nutrition Facts table (French edition)',
    section: 'words of the bilingual table; Food and Drug Regulations, B.01.401',
    edition: 'read in the description of the bilingual figure',
    url: 'https://inspection.canada.ca/etiquetage-des-aliments/etiquetage/industrie/etiquetage-nutritionnel/tableau-de-la-valeur-nutritive/fra/1389198568400/1389198597278?chap=1',
    mark: 'quoted',
  },
  us: {
    document: '21 CFR 101.9(d)(14)',
    section: 'panel in a second language',
    edition: 'words not read',
    mark: 'from-memory',
  },
  ours: {
    document: 'Words of the trade',
    section: 'translation of this program',
    edition: '',
    mark: 'common-practice',
  },
} as const satisfies Record<string, Source>
export type TermSource = keyof typeof termSources

/** A fixed text of a label. A name in braces stands for what changes: `{date}`, `{list}`, `{thing}`, anything else stays as it is. */
export type Term = {
  readonly en: string
  readonly source: TermSource
  /** Place whose law words it so; without, everywhere. */
  readonly place?: string
} & { readonly [L in Exclude<LabelLanguage, 'en'>]?: string }

type Five = readonly [fr: string, es: string, de: string, it: string, nl: string]
const all = (source: TermSource, en: string, [fr, es, de, it, nl]: Five): Term => ({ source, en, fr, es, de, it, nl })
const ca = (en: string, fr: string): Term => ({ source: 'canada', place: 'CA', en, fr })
const us = (en: string, es: string): Term => ({ source: 'us', place: 'US', en, es })

export const terms: readonly Term[] = [
  all('annex-x', 'Use by {date}', [
    'À consommer jusqu’au {date}',
    'Fecha de caducidad {date}',
    'Zu verbrauchen bis {date}',
    'Da consumare entro {date}',
    'Te gebruiken tot {date}',
  ]),
  all('annex-x', 'Best before end {date}', [
    'À consommer de préférence avant fin {date}',
    'Consumir preferentemente antes del fin de {date}',
    'Mindestens haltbar bis Ende {date}',
    'Da consumarsi preferibilmente entro fine {date}',
    'Ten minste houdbaar tot einde {date}',
  ]),
  all('annex-x', 'Best before {date}', [
    'À consommer de préférence avant le {date}',
    'Consumir preferentemente antes del {date}',
    'Mindestens haltbar bis {date}',
    'Da consumarsi preferibilmente entro il {date}',
    'Ten minste houdbaar tot {date}',
  ]),
  all('annex-x', 'Frozen on {date}', [
    'Produit congelé le {date}',
    'Fecha de congelación {date}',
    'Eingefroren am {date}',
    'Congelato il {date}',
    'Ingevroren op {date}',
  ]),
  all('ours', 'Keep refrigerated, at most {kept}', [
    'À conserver au réfrigérateur, à {kept} maximum',
    'Conservar refrigerado, a {kept} como máximo',
    'Gekühlt lagern, bei höchstens {kept}',
    'Conservare in frigorifero, a non più di {kept}',
    'Gekoeld bewaren, bij maximaal {kept}',
  ]),
  all('ours', 'Keep frozen, at most {kept}', [
    'À conserver congelé, à {kept} maximum',
    'Conservar congelado, a {kept} como máximo',
    'Tiefgekühlt lagern, bei höchstens {kept}',
    'Conservare congelato, a non più di {kept}',
    'Diepgevroren bewaren, bij maximaal {kept}',
  ]),
  all('ours', 'Keep at most {kept}, dry', [
    'À conserver au sec, à {kept} maximum',
    'Conservar en lugar seco, a {kept} como máximo',
    'Trocken lagern, bei höchstens {kept}',
    'Conservare all’asciutto, a non più di {kept}',
    'Droog bewaren, bij maximaal {kept}',
  ]),
  all('ours', 'Keep cool and dry', [
    'À conserver au frais et au sec',
    'Conservar en lugar fresco y seco',
    'Kühl und trocken lagern',
    'Conservare in luogo fresco e asciutto',
    'Koel en droog bewaren',
  ]),
  all('ours', 'Ingredients', ['Ingrédients', 'Ingredientes', 'Zutaten', 'Ingredienti', 'Ingrediënten']),
  all('annex-ii', 'Contains: {list}', [
    'Contient : {list}',
    'Contiene: {list}',
    'Enthält: {list}',
    'Contiene: {list}',
    'Bevat: {list}',
  ]),
  all('ours', 'Contains 2 % or less of:', [
    'contient 2 % ou moins de :',
    'contiene 2 % o menos de:',
    'enthält höchstens 2 %:',
    'contiene al massimo il 2 % di:',
    'bevat ten hoogste 2 %:',
  ]),
  all('ours', 'May contain {list}', [
    'Peut contenir : {list}',
    'Puede contener: {list}',
    'Kann Spuren enthalten von: {list}',
    'Può contenere: {list}',
    'Kan sporen bevatten van: {list}',
  ]),
  all('ours', '{thing} not edible', [
    '{thing} non comestible',
    '{thing} no comestible',
    '{thing} nicht zum Verzehr geeignet',
    '{thing} non edibile',
    '{thing} niet eetbaar',
  ]),
  all('ours', 'casing', ['boyau', 'tripa', 'Wursthülle', 'budello', 'worstvel']),
  all('ours', '{figure} g per 100 g of product', [
    '{figure} g pour 100 g de produit',
    '{figure} g por 100 g de producto',
    '{figure} g je 100 g Erzeugnis',
    '{figure} g per 100 g di prodotto',
    '{figure} g per 100 g product',
  ]),
  all('ours', 'about {figure}', [
    'environ {figure}',
    'unos {figure}',
    'etwa {figure}',
    'circa {figure}',
    'ongeveer {figure}',
  ]),
  all('ours', 'smoked', ['fumé', 'ahumado', 'geräuchert', 'affumicato', 'gerookt']),
  all('ours', 'cooked', ['cuit', 'cocido', 'gegart', 'cotto', 'gekookt']),
  all('ours', 'cured', ['salaisonné', 'curado', 'gepökelt', 'salmistrato', 'gepekeld']),
  all('ours', 'dried', ['séché', 'desecado', 'getrocknet', 'essiccato', 'gedroogd']),
  all('ours', 'frozen', ['congelé', 'congelado', 'tiefgefroren', 'congelato', 'bevroren']),
  all('ours', 'with added water', [
    'avec eau ajoutée',
    'con agua añadida',
    'mit Wasserzusatz',
    'con acqua aggiunta',
    'met toegevoegd water',
  ]),
  all('ours', 'Lot', ['Lot', 'Lote', 'Los', 'Lotto', 'Lot']),
  all('annex-xv', 'Nutrition', [
    'Déclaration nutritionnelle',
    'Información nutricional',
    'Nährwertdeklaration',
    'Dichiarazione nutrizionale',
    'Voedingswaardevermelding',
  ]),
  all('annex-xv', 'per 100 g', ['pour 100 g', 'por 100 g', 'je 100 g', 'per 100 g', 'per 100 g']),
  all('annex-xv', 'Energy', ['Énergie', 'Valor energético', 'Energie', 'Energia', 'Energie']),
  all('annex-xv', 'Fat', ['Matières grasses', 'Grasas', 'Fett', 'Grassi', 'Vetten']),
  all('annex-xv', 'of which saturates', [
    'dont acides gras saturés',
    'de las cuales saturadas',
    'davon gesättigte Fettsäuren',
    'di cui acidi grassi saturi',
    'waarvan verzadigde vetzuren',
  ]),
  all('annex-xv', 'Carbohydrate', ['Glucides', 'Hidratos de carbono', 'Kohlenhydrate', 'Carboidrati', 'Koolhydraten']),
  all('annex-xv', 'of which sugars', [
    'dont sucres',
    'de los cuales azúcares',
    'davon Zucker',
    'di cui zuccheri',
    'waarvan suikers',
  ]),
  all('annex-xv', 'Fibre', ['Fibres alimentaires', 'Fibra alimentaria', 'Ballaststoffe', 'Fibre', 'Vezels']),
  all('annex-xv', 'Protein', ['Protéines', 'Proteínas', 'Eiweiß', 'Proteine', 'Eiwitten']),
  all('annex-xv', 'Salt', ['Sel', 'Sal', 'Salz', 'Sale', 'Zout']),
  ca('Nutrition Facts', 'Valeur nutritive'),
  ca('Per {figure}', 'pour {figure}'),
  ca('Per', 'pour'),
  ca('Servings per container', 'Portions par contenant'),
  ca('Calories', 'Calories'),
  ca('Fat', 'Lipides'),
  ca('Saturated', 'saturés'),
  ca('Trans', 'trans'),
  ca('Saturated + Trans', 'saturés + trans'),
  ca('Cholesterol', 'Cholestérol'),
  ca('Sodium', 'Sodium'),
  ca('Carbohydrate', 'Glucides'),
  ca('Fibre', 'Fibres'),
  ca('Sugars', 'Sucres'),
  ca('Protein', 'Protéines'),
  ca('Potassium', 'Potassium'),
  ca('Calcium', 'Calcium'),
  ca('Iron', 'Fer'),
  ca('% Daily Value*', '% valeur quotidienne*'),
  ca('*5% or less is a little, 15% or more is a lot', '*5 % ou moins c’est peu, 15 % ou plus c’est beaucoup'),
  us('Nutrition Facts', 'Datos de nutrición'),
  us('Total Fat', 'Grasa total'),
  us('Saturated Fat', 'Grasa saturada'),
  us('Trans Fat', 'Grasa trans'),
  us('Cholesterol', 'Colesterol'),
  us('Sodium', 'Sodio'),
  us('Total Carbohydrate', 'Carbohidrato total'),
  us('Dietary Fiber', 'Fibra dietética'),
  us('Total Sugars', 'Azúcares totales'),
  us('Protein', 'Proteínas'),
  us('Calories', 'Calorías'),
  us('Amount per serving', 'Cantidad por porción'),
  us('% Daily Value*', '% Valor diario*'),
  us('Serving size', 'Tamaño por porción'),
  us('Servings per container', 'Porciones por envase'),
]
