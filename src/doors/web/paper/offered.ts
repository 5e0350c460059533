/** A sheet that may be chosen, and where it stands. */
export interface Offered {
  readonly id: SheetId;
  readonly href: string;
}

/** Every sheet there is; what it is called and what it is for stand in the catalogue. */
export type SheetId = 'ready' | 'make' | 'student' | 'run' | 'home' | 'labels' | 'gauge' | 'inspector' | 'handOut';

const PLACES = ['ready', 'make', 'student', 'run', 'home', 'labels', 'gauge', 'inspector', 'handOut'] as const;

/** The sheet that an address names; null for one that there is not. */
export const sheetNamed = (name: string | undefined): SheetId | null => PLACES.find((one) => one === name) ?? null;
