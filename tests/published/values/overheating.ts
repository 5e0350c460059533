import { cultureSurvival, rennetActive } from '../../../src/science/heat-death.ts';
import type { CultureKind } from '../../../src/science/culture.ts';
import type { PublishedValues } from '../rows.ts';

/** Minutes that leave a tenth, from the share that one minute leaves. */
const decimalMin = (leftAfterOneMinute: number): number => -1 / Math.log10(leftAfterOneMinute);
const cells = (kind: CultureKind, temperatureC: number) => (): number =>
  decimalMin(cultureSurvival({ kind, temperatureC, minutes: 1 }).p50);
const rennet = (temperatureC: number) => (): number => decimalMin(rennetActive({ temperatureC, minutes: 1 }));

export const values: PublishedValues = {
  'overheat-thermophilus-60': cells('thermophilic', 60),
  'overheat-yoghurt-65': cells('yoghurt', 65),
  'overheat-yoghurt-67': cells('yoghurt', 67),
  'overheat-yoghurt-70': cells('yoghurt', 70),
  'overheat-chymosin-53': rennet(53),
  'overheat-rennet-67': rennet(67),
};
