/** Ways of making meat safe for eating raw, in plain words. */
export const ways = [
  { value: 'frozen-room', label: 'frozen: room, days and thickness' },
  { value: 'frozen-centre', label: 'frozen: log of the centre' },
  { value: 'certified-herd', label: 'certified herd' },
  { value: 'tested', label: 'tested' },
  { value: 'published-cure', label: 'a published curing method' },
  { value: 'cooked-later', label: 'none: it goes into what is cooked' },
] as const
export type Way = (typeof ways)[number]['value']

export const wayName = (way: string): string => ways.find((w) => w.value === way)?.label ?? way

/** What a person has to know of a way where they choose it. */
export const wayHint: Readonly<Record<Way, string>> = {
  'frozen-room':
    'The room has to be at or below its temperature for all the days: give the warmest it was, and count from when the room was there.',
  'frozen-centre': 'The probe sits in the centre of the thickest piece, at the worst place of the freezer.',
  'certified-herd':
    'The paper says that these pigs come from a herd certified free of Trichinella. It does not stand for game.',
  tested:
    'The paper gives the result for the carcasses of this lot. For wild boar, bear and horse it is the only way but a cook.',
  'published-cure':
    'A paper alone proves no cure: salt, plate, diameter and days in the drying room have to be measured. Such a batch is held until a qualified person has signed.',
  'cooked-later': 'Nothing of this lot may go into a product that is eaten raw or underdone.',
}

const trichinella: ReadonlySet<string> = new Set(['pork', 'wild-boar', 'horse'])

/** Whether a material is meat that may carry Trichinella. */
export const mayCarry = (
  material: { readonly id: string; readonly species?: string | undefined } | undefined,
): boolean => material !== undefined && (trichinella.has(material.species ?? '') || trichinella.has(material.id))
