/**
 * Names of ingredients in French, Spanish, German, Italian and Dutch, by the English name on the label. Plain words of the trade put into
 * each language by this program (common practice, no source); names and classes of additives by the list of Regulation (EC) 1333/2008 and
 * Annex VII of Regulation (EU) 1169/2011, from memory. A name that is not here is asked of the maker.
 */
const rows = `
pork | porc | carne de cerdo | Schweinefleisch | carne di suino | varkensvlees
beef | bœuf | carne de vacuno | Rindfleisch | carne di bovino | rundvlees
veal | veau | carne de ternera | Kalbfleisch | carne di vitello | kalfsvlees
lamb | agneau | carne de cordero | Lammfleisch | carne di agnello | lamsvlees
goat | chèvre | carne de cabra | Ziegenfleisch | carne di capra | geitenvlees
chicken | poulet | carne de pollo | Hähnchenfleisch | carne di pollo | kippenvlees
turkey | dinde | carne de pavo | Putenfleisch | carne di tacchino | kalkoenvlees
duck | canard | carne de pato | Entenfleisch | carne di anatra | eendenvlees
venison | viande de cerf | carne de venado | Hirschfleisch | carne di cervo | hertenvlees
wild boar | sanglier | carne de jabalí | Wildschweinfleisch | carne di cinghiale | wildzwijnvlees
pork fat | gras de porc | grasa de cerdo | Schweinespeck | grasso di suino | varkensvet
beef fat | gras de bœuf | grasa de vacuno | Rinderfett | grasso di bovino | rundvet
lard | saindoux | manteca de cerdo | Schweineschmalz | strutto | reuzel
chicken fat | graisse de poulet | grasa de pollo | Hähnchenfett | grasso di pollo | kippenvet
pork connective tissue | tissu conjonctif de porc | tejido conjuntivo de cerdo | Schweinebindegewebe | tessuto connettivo di suino | varkensbindweefsel
beef connective tissue | tissu conjonctif de bœuf | tejido conjuntivo de vacuno | Rinderbindegewebe | tessuto connettivo di bovino | runderbindweefsel
pork rind | couenne de porc | corteza de cerdo | Schweineschwarte | cotenna di suino | varkenszwoerd
pork skin | couenne de porc | corteza de cerdo | Schweineschwarte | cotenna di suino | varkenszwoerd
pork liver | foie de porc | hígado de cerdo | Schweineleber | fegato di suino | varkenslever
pork heart | cœur de porc | corazón de cerdo | Schweineherz | cuore di suino | varkenshart
beef liver | foie de bœuf | hígado de vacuno | Rinderleber | fegato di bovino | runderlever
chicken liver | foie de poulet | hígado de pollo | Hähnchenleber | fegato di pollo | kippenlever
pork blood | sang de porc | sangre de cerdo | Schweineblut | sangue di suino | varkensbloed
water | eau | agua | Wasser | acqua | water
salt | sel | sal | Salz | sale | zout
curing salt | sel nitrité | sal nitrificante | Pökelsalz | sale nitritato | nitrietpekelzout
sugar | sucre | azúcar | Zucker | zucchero | suiker
brown sugar | cassonade | azúcar moreno | brauner Zucker | zucchero di canna | bruine suiker
dextrose | dextrose | dextrosa | Dextrose | destrosio | dextrose
lactose | lactose | lactosa | Laktose | lattosio | lactose
honey | miel | miel | Honig | miele | honing
glucose syrup | sirop de glucose | jarabe de glucosa | Glukosesirup | sciroppo di glucosio | glucosestroop
maple syrup | sirop d’érable | jarabe de arce | Ahornsirup | sciroppo d’acero | ahornsiroop
maltodextrin | maltodextrine | maltodextrina | Maltodextrin | maltodestrina | maltodextrine
sugars | sucres | azúcares | Zucker | zuccheri | suikers
spices | épices | especias | Gewürze | spezie | specerijen
herbs | herbes aromatiques | hierbas aromáticas | Kräuter | erbe aromatiche | kruiden
allspice | piment de la Jamaïque | pimienta de Jamaica | Piment | pimento | piment
anise seed | graines d’anis | anís | Anis | semi di anice | anijszaad
caraway seed | graines de carvi | alcaravea | Kümmel | semi di carvi | karwijzaad
cardamom | cardamome | cardamomo | Kardamom | cardamomo | kardemom
chilli | piment | guindilla | Chili | peperoncino | chilipeper
cinnamon | cannelle | canela | Zimt | cannella | kaneel
clove | clou de girofle | clavo | Gewürznelken | chiodi di garofano | kruidnagel
coriander seed | graines de coriandre | semillas de cilantro | Koriandersaat | semi di coriandolo | korianderzaad
cumin seed | graines de cumin | comino | Kreuzkümmel | semi di cumino | komijnzaad
fennel seed | graines de fenouil | semillas de hinojo | Fenchelsaat | semi di finocchio | venkelzaad
ginger | gingembre | jengibre | Ingwer | zenzero | gember
mace | macis | macis | Macis | macis | foelie
nutmeg | noix de muscade | nuez moscada | Muskatnuss | noce moscata | nootmuskaat
paprika | paprika | pimentón | Paprika | paprica | paprikapoeder
turmeric | curcuma | cúrcuma | Kurkuma | curcuma | kurkuma
garlic powder | ail en poudre | ajo en polvo | Knoblauchpulver | aglio in polvere | knoflookpoeder
onion powder | oignon en poudre | cebolla en polvo | Zwiebelpulver | cipolla in polvere | uienpoeder
black pepper | poivre noir | pimienta negra | schwarzer Pfeffer | pepe nero | zwarte peper
white pepper | poivre blanc | pimienta blanca | weißer Pfeffer | pepe bianco | witte peper
celery seed | graines de céleri | semillas de apio | Selleriesaat | semi di sedano | selderijzaad
celery powder | céleri en poudre | apio en polvo | Selleriepulver | sedano in polvere | selderijpoeder
mustard seed | graines de moutarde | semillas de mostaza | Senfkörner | semi di senape | mosterdzaad
mustard | moutarde | mostaza | Senf | senape | mosterd
juniper berry | baies de genièvre | bayas de enebro | Wacholderbeeren | bacche di ginepro | jeneverbessen
basil | basilic | albahaca | Basilikum | basilico | basilicum
bay leaf | feuille de laurier | laurel | Lorbeerblatt | alloro | laurierblad
marjoram | marjolaine | mejorana | Majoran | maggiorana | marjolein
oregano | origan | orégano | Oregano | origano | oregano
parsley | persil | perejil | Petersilie | prezzemolo | peterselie
rosemary | romarin | romero | Rosmarin | rosmarino | rozemarijn
sage | sauge | salvia | Salbei | salvia | salie
savory | sarriette | ajedrea | Bohnenkraut | santoreggia | bonenkruid
thyme | thym | tomillo | Thymian | timo | tijm
garlic | ail | ajo | Knoblauch | aglio | knoflook
onion | oignon | cebolla | Zwiebeln | cipolla | ui
leek | poireau | puerro | Lauch | porro | prei
apple | pomme | manzana | Apfel | mela | appel
rusk | chapelure | pan rallado | Paniermehl | pangrattato | paneermeel
rusk toast | chapelure | pan rallado | Zwieback | fette biscottate | beschuit
breadcrumb | chapelure | pan rallado | Semmelbrösel | pangrattato | broodkruim
white bread | pain blanc | pan blanco | Weißbrot | pane bianco | witbrood
wheat flour | farine de blé | harina de trigo | Weizenmehl | farina di frumento | tarwebloem
semolina | semoule de blé | sémola de trigo | Weizengrieß | semola di frumento | tarwegries
oats | avoine | avena | Hafer | avena | haver
pearl barley | orge perlé | cebada perlada | Gerstengraupen | orzo perlato | gerst
rye flour | farine de seigle | harina de centeno | Roggenmehl | farina di segale | roggebloem
rice | riz | arroz | Reis | riso | rijst
rice flour | farine de riz | harina de arroz | Reismehl | farina di riso | rijstmeel
maize starch | amidon de maïs | almidón de maíz | Maisstärke | amido di mais | maïszetmeel
corn starch | amidon de maïs | almidón de maíz | Maisstärke | amido di mais | maïszetmeel
potato starch | fécule de pomme de terre | fécula de patata | Kartoffelstärke | fecola di patate | aardappelzetmeel
wheat starch | amidon de blé | almidón de trigo | Weizenstärke | amido di frumento | tarwezetmeel
wheat gluten | gluten de blé | gluten de trigo | Weizengluten | glutine di frumento | tarwegluten
yeast | levure | levadura | Hefe | lievito | gist
soy protein isolate | isolat de protéines de soja | aislado de proteína de soja | Sojaproteinisolat | proteine isolate della soia | soja-eiwitisolaat
soy protein concentrate | concentré de protéines de soja | concentrado de proteína de soja | Sojaproteinkonzentrat | proteine concentrate della soia | soja-eiwitconcentraat
gelatine | gélatine | gelatina | Gelatine | gelatina | gelatine
milk | lait | leche | Milch | latte | melk
skimmed milk | lait écrémé | leche desnatada | Magermilch | latte scremato | magere melk
nonfat dry milk | lait écrémé en poudre | leche desnatada en polvo | Magermilchpulver | latte scremato in polvere | mageremelkpoeder
nonfat milk | lait écrémé | leche desnatada | Magermilch | latte scremato | magere melk
dry whole milk | lait entier en poudre | leche entera en polvo | Vollmilchpulver | latte intero in polvere | vollemelkpoeder
skimmed milk powder | lait écrémé en poudre | leche desnatada en polvo | Magermilchpulver | latte scremato in polvere | mageremelkpoeder
whole milk powder | lait entier en poudre | leche entera en polvo | Vollmilchpulver | latte intero in polvere | vollemelkpoeder
whey powder | lactosérum en poudre | suero de leche en polvo | Molkenpulver | siero di latte in polvere | weipoeder
cream | crème | nata | Sahne | panna | room
butter | beurre | mantequilla | Butter | burro | boter
cheese | fromage | queso | Käse | formaggio | kaas
egg | œuf | huevo | Ei | uovo | ei
egg white | blanc d’œuf | clara de huevo | Eiklar | albume d’uovo | eiwit
egg powder | œuf en poudre | huevo en polvo | Volleipulver | uovo in polvere | eipoeder
red wine | vin rouge | vino tinto | Rotwein | vino rosso | rode wijn
white wine | vin blanc | vino blanco | Weißwein | vino bianco | witte wijn
beer | bière | cerveza | Bier | birra | bier
cider vinegar | vinaigre de cidre | vinagre de sidra | Apfelessig | aceto di mele | appelazijn
spirit vinegar | vinaigre d’alcool | vinagre de alcohol | Branntweinessig | aceto di alcol | alcoholazijn
wine vinegar | vinaigre de vin | vinagre de vino | Weinessig | aceto di vino | wijnazijn
pistachio | pistache | pistacho | Pistazien | pistacchi | pistachenoten
almond | amande | almendra | Mandeln | mandorle | amandelen
hazelnut | noisette | avellana | Haselnüsse | nocciole | hazelnoten
smoke flavouring | arôme de fumée | aroma de humo | Raucharoma | aroma di affumicatura | rookaroma
smoke | fumée | humo | Rauch | fumo | rook
starter culture | ferments | fermentos | Starterkulturen | fermenti | starterculturen
preservative | conservateur | conservador | Konservierungsstoff | conservante | conserveermiddel
antioxidant | antioxydant | antioxidante | Antioxidationsmittel | antiossidante | antioxidant
acidity regulator | correcteur d’acidité | corrector de acidez | Säureregulator | regolatore di acidità | zuurteregelaar
stabiliser | stabilisant | estabilizante | Stabilisator | stabilizzante | stabilisator
flavour enhancer | exhausteur de goût | potenciador del sabor | Geschmacksverstärker | esaltatore di sapidità | smaakversterker
thickener | épaississant | espesante | Verdickungsmittel | addensante | verdikkingsmiddel
sodium nitrite | nitrite de sodium | nitrito sódico | Natriumnitrit | nitrito di sodio | natriumnitriet
potassium nitrite | nitrite de potassium | nitrito potásico | Kaliumnitrit | nitrito di potassio | kaliumnitriet
sodium nitrate | nitrate de sodium | nitrato sódico | Natriumnitrat | nitrato di sodio | natriumnitraat
potassium nitrate | nitrate de potassium | nitrato potásico | Kaliumnitrat | nitrato di potassio | kaliumnitraat
sodium erythorbate | érythorbate de sodium | eritorbato sódico | Natriumisoascorbat | eritorbato di sodio | natriumerythorbaat
sodium ascorbate | ascorbate de sodium | ascorbato sódico | Natriumascorbat | ascorbato di sodio | natriumascorbaat
ascorbic acid | acide ascorbique | ácido ascórbico | Ascorbinsäure | acido ascorbico | ascorbinezuur
citric acid | acide citrique | ácido cítrico | Citronensäure | acido citrico | citroenzuur
lactic acid | acide lactique | ácido láctico | Milchsäure | acido lattico | melkzuur
sodium lactate | lactate de sodium | lactato sódico | Natriumlactat | lattato di sodio | natriumlactaat
glucono-delta-lactone | glucono-delta-lactone | glucono-delta-lactona | Glucono-delta-Lacton | glucono-delta-lattone | glucono-delta-lacton
monosodium glutamate | glutamate monosodique | glutamato monosódico | Mononatriumglutamat | glutammato monosodico | mononatriumglutamaat
sodium triphosphate | triphosphate de sodium | trifosfato sódico | Natriumtriphosphat | trifosfato di sodio | natriumtrifosfaat
sodium diphosphate | diphosphate de sodium | difosfato sódico | Natriumdiphosphat | difosfato di sodio | natriumdifosfaat
`

export const foodLanguages = ['fr', 'es', 'de', 'it', 'nl'] as const
type FoodLanguage = (typeof foodLanguages)[number]

/** Names by language and English name in small letters. */
export const foodWords: Readonly<Record<FoodLanguage, ReadonlyMap<string, string>>> = (() => {
  const split = rows
    .trim()
    .split('\n')
    .map((r) => r.split('|').map((c) => c.trim()))
  const column = (i: number) => new Map(split.map((c) => [c[0]!.toLowerCase(), c[i]!]))
  return { fr: column(1), es: column(2), de: column(3), it: column(4), nl: column(5) }
})()
