/** What a brine in use asks for: salt, cold, boiling, acid, calcium, or an end. Each with the reason and its source. */

export type BrineAct =
  'stop' | 'replace' | 'boil' | 'salt' | 'water' | 'chill' | 'acid' | 'less-acid' | 'calcium' | 'skim' | 'check';

/** Why: stable code, in the order of their weight. */
export type BrineReason =
  | 'gas'
  | 'slimy'
  | 'weak-and-warm'
  | 'weak'
  | 'uses'
  | 'days'
  | 'cloudy'
  | 'warm'
  | 'below-aim'
  | 'above-aim'
  | 'pH-high'
  | 'pH-low'
  | 'no-calcium'
  | 'film'
  | 'unread';

export interface BrineFinding {
  readonly act: BrineAct;
  readonly reason: BrineReason;
  readonly source: string;
}

export interface BrineSituation {
  /** [% by mass]. */
  readonly percent: number;
  readonly aimPercent: number;
  readonly temperatureC?: number | null;
  readonly pH?: number | null;
  /** Of the cheese that goes in; 5.2 where nobody said. */
  readonly cheesePH?: number | null;
  /** Anhydrous [g per L]. */
  readonly calciumGPerL?: number | null;
  readonly look?: 'clear' | 'cloudy' | 'film' | 'slimy' | 'gas' | null;
  /** Batches and days since it was made, boiled or filtered. */
  readonly uses: number;
  readonly days: number;
  /** Days since its strength was read. */
  readonly daysUnread: number;
}

const PRACTICE = 'common practice (no source)';
const LARSON =
  'Larson, Johnson & Nelson (1999) J. Dairy Sci. 82:1860 (abstract seen): Listeria lived on in strong cold brine for up to 259 days';
const ICMSF = 'growth limits of ICMSF 1996, as tabulated; our own derivation';
const CALCIUM = 'Öztürk & Güncü (2021) Turk. J. Agric. Food Sci. Technol. 9:650 (abstract seen)';
const RIND = `soft rinds in brines far from the cheese's own acidity: ${PRACTICE}`;

export const BRINE_MOST_USES = 20; // common practice (no source)
export const BRINE_MOST_DAYS = 30; // common practice (no source)
export const BRINE_LEAST_PERCENT = 15; // spoilage risk below 16 %: common practice (no source), as the caution rules have it
const WARM_C = 13; // brine at about 7 to 12 °C: common practice (no source)
const STOP_PERCENT = 10; // ICMSF 1996, as tabulated
const STOP_C = 10; // ICMSF 1996, as tabulated
const PH_OFF = 0.5; // from the cheese's own: common practice (no source)
const USUAL_CHEESE_PH = 5.2; // pressed and stretched cheese at brining 5.1 to 5.4, common practice (no source)
const AIM_OFF = 0.5; // percentage points, our own choice: what a float can tell
const LEAST_CALCIUM_G_PER_L = 0.5; // our own choice: half of the lower end of 1 to 2 g/L, common practice (no source)
const UNREAD_DAYS = 14; // our own choice

/**
 * What to do with a brine as it stands, the gravest first.
 * @param input strength [% by mass], temperature [°C], pH, calcium [g/L], what it looks like, uses and days
 * @returns findings, none where it is as it should be
 * Valid: sodium chloride brines of 5 to 26 %. Uncertainty: numbers of uses and days are custom.
 * @source each finding's own
 */
export function brineFindings(input: BrineSituation): readonly BrineFinding[] {
  const { percent, aimPercent, uses, days, daysUnread } = input;
  const { temperatureC = null, pH = null, cheesePH = null, calciumGPerL = null, look = null } = input;
  const off = pH === null ? 0 : pH - (cheesePH ?? USUAL_CHEESE_PH);
  const rules: readonly (readonly [boolean, BrineAct, BrineReason, string])[] = [
    [look === 'gas', 'stop', 'gas', `yeast or coliforms: ${PRACTICE}`],
    [percent < STOP_PERCENT && (temperatureC === null || temperatureC > STOP_C), 'stop', 'weak-and-warm', ICMSF],
    [look === 'slimy', 'replace', 'slimy', PRACTICE],
    [percent < BRINE_LEAST_PERCENT, 'salt', 'weak', PRACTICE],
    [uses > BRINE_MOST_USES, 'boil', 'uses', `${LARSON}; number of uses: ${PRACTICE}`],
    [days > BRINE_MOST_DAYS, 'boil', 'days', `${LARSON}; number of days: ${PRACTICE}`],
    [look === 'cloudy', 'boil', 'cloudy', PRACTICE],
    [temperatureC !== null && temperatureC > WARM_C, 'chill', 'warm', PRACTICE],
    [percent >= BRINE_LEAST_PERCENT && percent < aimPercent - AIM_OFF, 'salt', 'below-aim', 'mass balance'],
    [percent > aimPercent + 2 * AIM_OFF, 'water', 'above-aim', 'mass balance'],
    [off > PH_OFF, 'acid', 'pH-high', RIND],
    [off < -PH_OFF, 'less-acid', 'pH-low', RIND],
    [calciumGPerL !== null && calciumGPerL < LEAST_CALCIUM_G_PER_L, 'calcium', 'no-calcium', CALCIUM],
    [look === 'film', 'skim', 'film', PRACTICE],
    [daysUnread > UNREAD_DAYS, 'check', 'unread', 'our own choice'],
  ];
  return rules.flatMap(([holds, act, reason, source]) => (holds ? [{ act, reason, source }] : []));
}
