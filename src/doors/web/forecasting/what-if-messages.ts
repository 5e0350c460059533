import type { Standing, Settings, WhatIf } from '../../../forecast/what-if.ts';
import type { Beliefs, JointBeliefs } from '../../../forecast/uncertain.ts';

/** The make as it stands: its members are run once and kept. */
export interface WhatIfBase extends Standing {
  readonly seed: number;
  readonly members: number;
  readonly beliefs?: Beliefs | JointBeliefs;
}

/** What the sheet asks of the worker; the newest number wins. `base` comes along where it is another than before. */
export interface WhatIfQuestion {
  readonly number: number;
  readonly base: WhatIfBase | null;
  readonly settings: Settings;
}

export type WhatIfReply =
  | { readonly number: number; readonly answer: WhatIf; readonly last: boolean }
  | { readonly number: number; readonly failed: string };
