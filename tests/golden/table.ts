import type { Forecast } from '../../src/forecast/forecast.ts';

/** One whole make as a table a cheesemaker can judge: when each step ends, how sour and how warm it is then. */
export interface GoldenRow {
  readonly step: string;
  readonly endMin: readonly [number, number, number];
  readonly pH: readonly [number, number, number] | null;
  readonly temperatureC: number | null;
}

export interface Golden {
  readonly steps: readonly GoldenRow[];
  readonly outcome: Readonly<Record<string, readonly [number, number, number]>>;
}

const rounded = (value: number, decimals: number): number =>
  Number.isFinite(value) ? Math.round(value * 10 ** decimals) / 10 ** decimals : 9999;

export function goldenOf(forecast: Forecast): Golden {
  const { outcome } = forecast;
  const three = (
    spread: { p5: number; p50: number; p95: number },
    decimals: number,
  ): readonly [number, number, number] => [
    rounded(spread.p5, decimals),
    rounded(spread.p50, decimals),
    rounded(spread.p95, decimals),
  ];
  return {
    steps: forecast.steps.map((step) => ({
      step: step.stepId,
      endMin: three(step.endMin, 0),
      pH: step.endPH === null ? null : three(step.endPH, 2),
      temperatureC: step.endTemperatureC === null ? null : rounded(step.endTemperatureC.p50, 1),
    })),
    outcome: {
      cheeseKg: three(outcome.cheeseKg, 2),
      moisturePercent: three(outcome.moisturePercent, 1),
      fatInDryMatterPercent: three(outcome.fatInDryMatterPercent, 1),
      saltPercent: three(outcome.saltPercent, 2),
      pHAtStretch: three(outcome.pHAtStretch, 2),
      cultureToReadyMin: three(outcome.cultureToReadyMin, 0),
    },
  };
}
