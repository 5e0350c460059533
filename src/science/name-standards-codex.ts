/** Names that Codex gives by composition: the classes of its general cheese standard, and single cheeses from memory. */
import type { DryMatterStep, Limit, NameStandard } from './name-standards.ts';

const OLD = 'Codex general standard A-6-1978, extract seen; the current one has fewer classes';
const MEMORY = 'from memory, not seen: the composition tables were not found; verify before use';

type Range = Pick<Limit, 'min' | 'below' | 'above'>;
const firm = (id: string, range: Range): NameStandard => ({
  id: `codex-${id}`,
  name: id.replace('-', ' ').replace('semi ', 'semi-'),
  rule: 'Codex A-6-1978',
  limits: [{ on: 'moistureInFatFree', ...range }],
  source: OLD,
});
const fat = (id: string, range: Range): NameStandard => ({
  id: `codex-${id}`,
  name: id.replace('-', ' '),
  rule: 'Codex A-6-1978',
  limits: [{ on: 'fatInDryMatter', ...range }],
  source: OLD,
});

/** Classes by firmness and by fat, as printed in 1978. */
const CLASSES: readonly NameStandard[] = [
  firm('extra-hard', { below: 51 }),
  firm('hard', { min: 49, below: 56 }),
  firm('semi-hard', { min: 54, below: 63 }),
  firm('semi-soft', { min: 61, below: 69 }),
  firm('soft', { above: 67 }),
  fat('high-fat', { min: 60 }),
  fat('full-fat', { min: 45, below: 60 }),
  fat('medium-fat', { min: 25, below: 45 }),
  fat('low-fat', { min: 10, below: 25 }),
  fat('skim', { below: 10 }),
  {
    id: 'codex-283-firm',
    name: 'firm or semi-hard',
    rule: 'Codex 283-1978',
    limits: [{ on: 'moistureInFatFree', min: 54, below: 69 }],
    source: MEMORY,
    unconfirmed: true,
  },
  {
    id: 'codex-283-partially-skimmed',
    name: 'partially skimmed',
    rule: 'Codex 283-1978',
    limits: [{ on: 'fatInDryMatter', min: 10, below: 25 }],
    source: MEMORY,
    unconfirmed: true,
  },
];

const steps = (pairs: readonly (readonly [number, number])[]): DryMatterStep[] =>
  pairs.map(([fromFatInDryMatterPercent, dryMatterMinPercent]) => ({ fromFatInDryMatterPercent, dryMatterMinPercent }));

const single = (
  id: string,
  name: string,
  number: number,
  pairs: readonly (readonly [number, number])[],
): NameStandard => ({
  id: `codex-${id}`,
  name,
  rule: `Codex ${number}`,
  limits: [],
  drySteps: steps(pairs),
  source: MEMORY,
  unconfirmed: true,
});

/** Single cheeses: from this fat in dry matter on, at least this dry matter. All from memory. */
// prettier-ignore
const SINGLE: readonly NameStandard[] = [
  single('mozzarella', 'mozzarella, high moisture', 262, [[20, 24], [30, 26], [40, 29], [45, 31], [50, 34], [60, 38]]),
  single('low-moisture-mozzarella', 'mozzarella, low moisture', 262, [[18, 34], [30, 39], [40, 42], [45, 45], [50, 47], [60, 53]]),
  single('cheddar', 'cheddar', 263, [[22, 49], [30, 53], [40, 57], [48, 61], [60, 66]]),
  single('edam', 'edam', 265, [[30, 47], [40, 51], [45, 55], [50, 57], [60, 62]]),
  single('gouda', 'gouda', 266, [[30, 48], [40, 52], [48, 55], [60, 62]]),
  single('emmental', 'emmental', 269, [[45, 60], [50, 62], [60, 67]]),
  single('provolone', 'provolone', 272, [[45, 51], [50, 53], [60, 60]]),
  single('camembert', 'camembert', 276, [[30, 38], [40, 41], [45, 43], [55, 48]]),
  single('brie', 'brie', 277, [[40, 42], [45, 43], [55, 48], [60, 51]]),
  { id: 'codex-cottage', name: 'cottage', rule: 'Codex 273', limits: [{ on: 'fatFreeDryMatter', min: 18 }], source: MEMORY, unconfirmed: true },
  { id: 'codex-cream', name: 'cream', rule: 'Codex 275', limits: [{ on: 'fatInDryMatter', min: 25 }, { on: 'moistureInFatFree', min: 67 }, { on: 'moisture', max: 78 }], source: MEMORY, unconfirmed: true },
];

export const CODEX_STANDARDS: readonly NameStandard[] = [...CLASSES, ...SINGLE];
