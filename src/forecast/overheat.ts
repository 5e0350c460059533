import { ACID_STATE } from '../science/acidification.ts';
import { rennetActiveKernel, survivingFractionKernel } from '../science/heat-death.ts';
import type { Vat } from './vat-state.ts';

/** Cells that the heat kills, in curd and whey alike, and rennet that it spoils before the milk has set. */
export function overheat(vat: Vat, minutes: number, temperatureC: number): void {
  const { inputs, acid } = vat;
  const living = survivingFractionKernel({
    culture: inputs.acid.culture,
    temperatureC,
    minutes,
    hardinessZ: inputs.heatHardinessZ,
  });
  acid[ACID_STATE.cellsPerL] = living * (acid[ACID_STATE.cellsPerL] ?? 0);
  acid[ACID_STATE.wheyCellsPerL] = living * (acid[ACID_STATE.wheyCellsPerL] ?? 0);
  if (!Number.isNaN(vat.rennetMin)) vat.clotting.doseImcuPerL *= rennetActiveKernel({ temperatureC, minutes });
}
