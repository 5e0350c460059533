/** `npm run calibration [-- MAKES]`: measures how honest the bands are and stores what it found in docs/calibration. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { format } from 'prettier';
import { modelHash } from './calibration/model-hash.ts';
import { calibrated } from './calibration/results.ts';

const makes = Number(process.argv[2] ?? 560);
if (!Number.isInteger(makes) || makes < 20) throw new RangeError(`makes: ${process.argv[2]} given; a whole number from 20 on`); // prettier-ignore
const results = calibrated({ model: await modelHash(), makes, members: 500, say: (line) => console.log(line) });
const folder = new URL('../docs/calibration/', import.meta.url);
mkdirSync(folder, { recursive: true });
writeFileSync(
  new URL('results.json', folder),
  await format(JSON.stringify(results), { parser: 'json', printWidth: 120 }),
);

const percent = (value: number): string => `${(100 * value).toFixed(1)} %`;
for (const { id, makes: of, covered, shownCovered, chiSquareP, distanceP } of results.quantities) {
  console.log(
    `${id.padEnd(14)} ${of} makes, members hold ${percent(covered)}, shown bands ${percent(shownCovered)};` +
      ` even ranks: chi-square p ${chiSquareP.toFixed(3)}, distance p ${distanceP.toFixed(3)}`,
  );
}
for (const { id, covered } of results.otherModels) {
  console.log(`${id.padEnd(14)} ${Object.entries(covered).map(([of, value]) => `${of} ${percent(value)}`).join(', ')}`); // prettier-ignore
}
for (const [id, value] of Object.entries(results.sharpness)) console.log(`${id.padEnd(14)} band ${value.toFixed(2)} of before`); // prettier-ignore
for (const { id, targetMin, forecasts } of results.replayed) {
  const told = forecasts.map(({ readings, p5, p50, p95 }) => `${readings}: ${p50.toFixed(0)} (${p5.toFixed(0)}-${p95.toFixed(0)})`); // prettier-ignore
  console.log(`${id.padEnd(4)} ${targetMin} min; after so many readings ${told.join(', ')}`);
}
