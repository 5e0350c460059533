import type { ReactNode } from 'react';
import { ACID_GEL, FLOCS } from './acid-drawings.tsx';
import { CLEAN_BREAK, FLOCCULATION } from './clean-break-drawings.tsx';
import type { Fills } from './drawing.tsx';
import { GRIP } from './grip-drawings.tsx';
import { MILL_TEAR, PAN_TRACK } from './slab-drawings.tsx';
import { STRETCH } from './stretch-drawings.tsx';

/** Drawings by judgement and grade. A taste cannot be drawn: sweet, flat and sharp have words only. */
export const DRAWINGS: Readonly<Record<string, Readonly<Record<string, (fills: Fills) => ReactNode>>>> = {
  cleanBreak: CLEAN_BREAK,
  flocculation: FLOCCULATION,
  grip: GRIP,
  stretch: STRETCH,
  acidGel: ACID_GEL,
  flocs: FLOCS,
  millTear: MILL_TEAR,
  panTrack: PAN_TRACK,
};
