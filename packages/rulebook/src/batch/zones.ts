/** A clock whose zone nobody said may run this many hours behind and ahead of UTC. */
export const ZONES_H = { behind: 12, ahead: 14 } as const
