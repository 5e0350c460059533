/**
 * A pot of milk in a pot of water (double boiler): two lumps that exchange heat.
 * The bath runs ahead of the milk and goes on heating it, so the burner goes off early.
 */
import { requireWithin, type Validity } from '../numbers/validity.ts';

export interface BathHeatingInput {
  readonly milkC: number;
  readonly bathC: number;
  readonly toC: number;
  readonly roomC: number;
  /** Milk and its pot [kJ/K]. */
  readonly milkKJPerK: number;
  /** Water and the outer pot [kJ/K]. */
  readonly bathKJPerK: number;
  readonly heaterW: number;
  /** Between bath and milk: U A [W/K]. */
  readonly exchangeWPerK: number;
  readonly milkLossWPerK: number;
  readonly bathLossWPerK: number;
}

/** When to turn off, what the thermometer in the milk says then, and how hot the bath is. */
export interface BathHeating {
  readonly offMin: number;
  readonly milkAtOffC: number;
  readonly bathAtOffC: number;
  /** Minutes until milk and bath have met within half a kelvin. */
  readonly reachedMin: number;
  readonly finalC: number;
}

export const BATH_EXCHANGE_W_PER_M2_K = 250; // textbook range 150 to 350 for still water and milk, from memory; stirring raises it

const HERE = 'our own limits: open baths of warm water';

export const bathHeatingValidity: Validity = {
  milkC: { low: 0, high: 95, unit: '°C', source: HERE },
  bathC: { low: 0, high: 98, unit: '°C', source: HERE },
  toC: { low: 0, high: 95, unit: '°C', source: HERE },
  roomC: { low: -5, high: 45, unit: '°C', source: HERE },
  milkKJPerK: { low: 0.1, high: 10_000, unit: 'kJ/K', source: HERE },
  bathKJPerK: { low: 0.1, high: 10_000, unit: 'kJ/K', source: HERE },
  exchangeWPerK: { low: 0.1, high: 100_000, unit: 'W/K', source: HERE },
};

/** What milk and bath come to when they have met: (C_m T_m + C_b T_b) / (C_m + C_b), no losses. */
export function metC(input: {
  readonly milkC: number;
  readonly bathC: number;
  readonly milkKJPerK: number;
  readonly bathKJPerK: number;
}): number {
  return (input.milkKJPerK * input.milkC + input.bathKJPerK * input.bathC) / (input.milkKJPerK + input.bathKJPerK);
}

const STEP_S = 2; // our own choice: far below the exchange's time constant of minutes
const LONGEST_S = 24 * 3600;

/** Kernel: rates of milk and bath [K/s]. */
function rates(input: BathHeatingInput, milkC: number, bathC: number, heaterW: number): [number, number] {
  const across = input.exchangeWPerK * (bathC - milkC);
  return [
    (across - input.milkLossWPerK * (milkC - input.roomC)) / (1000 * input.milkKJPerK),
    (heaterW - across - input.bathLossWPerK * (bathC - input.roomC)) / (1000 * input.bathKJPerK),
  ];
}

/**
 * Heating milk in a water bath, burner off at the moment from which it coasts to the target.
 *
 * C_b T_b' = P - G (T_b - T_m) - UA_b (T_b - T_room); C_m T_m' = G (T_b - T_m) - UA_m (T_m - T_room).
 *
 * @param input  as `BathHeatingInput`
 * @returns when to turn off and what comes of it; null when the heater never gets there
 * Valid: as `bathHeatingValidity`; both stirred. Uncertainty: exchange within 40 %, which moves the bath, hardly the end.
 * @throws InputError naming the field, its value and the range
 * @source energy balance of two lumps
 */
export function bathHeating(input: BathHeatingInput): BathHeating | null {
  requireWithin(bathHeatingValidity, { ...input });
  let { milkC, bathC } = input;
  let offMin: number | null = metC({ ...input, milkC, bathC }) >= input.toC ? 0 : null;
  let milkAtOffC = milkC;
  let bathAtOffC = bathC;
  for (let second = 0; second < LONGEST_S; second += STEP_S) {
    if (offMin !== null && bathC - milkC < 0.5) {
      return { offMin, milkAtOffC, bathAtOffC, reachedMin: second / 60, finalC: milkC };
    }
    const heaterW = offMin === null ? input.heaterW : 0;
    const [m1, b1] = rates(input, milkC, bathC, heaterW);
    const [m2, b2] = rates(input, milkC + (m1 * STEP_S) / 2, bathC + (b1 * STEP_S) / 2, heaterW);
    milkC += m2 * STEP_S;
    bathC += b2 * STEP_S;
    if (offMin === null && bathC >= 99) return null;
    if (offMin === null && metC({ ...input, milkC, bathC }) >= input.toC) {
      offMin = (second + STEP_S) / 60;
      milkAtOffC = milkC;
      bathAtOffC = bathC;
    }
  }
  return null;
}
