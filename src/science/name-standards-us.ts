/** Names that US rules give by composition: 21 CFR part 133, two of California, and one that is no rule at all. */
import type { Limit, NameStandard } from './name-standards.ts';

const TEXT = 'section text read';
const TABLE = 'textbook table of the 2003 edition, seen at second hand';
const PASTEURISED_FROM_MEMORY =
  'textbook table of the 2003 edition, seen at second hand; that it needs pasteurised milk is from memory';

const wetterThan = (above: number, max: number): Limit => ({ on: 'moisture', above, max });
const atMost = (max: number): Limit => ({ on: 'moisture', max });
const fatInDry = (min: number, below?: number): Limit =>
  below === undefined ? { on: 'fatInDryMatter', min } : { on: 'fatInDryMatter', min, below };

interface Row {
  readonly id: string;
  readonly name?: string;
  readonly section: string;
  readonly limits: readonly Limit[];
  readonly source?: string;
  readonly isPasteurised?: boolean;
}

// prettier-ignore
const ROWS: readonly Row[] = [
  // 133.155 to .158: section texts read
  { id: 'mozzarella', section: '133.155', limits: [wetterThan(52, 60), fatInDry(45)], source: TEXT, isPasteurised: true },
  { id: 'low-moisture-mozzarella', name: 'low-moisture mozzarella', section: '133.156', limits: [wetterThan(45, 52), fatInDry(45)], source: TEXT, isPasteurised: true },
  { id: 'part-skim-mozzarella', name: 'part-skim mozzarella', section: '133.157', limits: [wetterThan(52, 60), fatInDry(30, 45)], source: TEXT, isPasteurised: true },
  { id: 'low-moisture-part-skim-mozzarella', name: 'low-moisture part-skim mozzarella', section: '133.158', limits: [wetterThan(45, 52), fatInDry(30, 45)], source: TEXT, isPasteurised: true },
  { id: 'provolone', section: '133.181', limits: [atMost(45), fatInDry(45)] },
  { id: 'caciocavallo', name: 'caciocavallo siciliano', section: '133.111', limits: [atMost(40), fatInDry(42)] },
  { id: 'cheddar', section: '133.113', limits: [atMost(39), fatInDry(50)], source: TEXT },
  { id: 'colby', section: '133.118', limits: [atMost(40), fatInDry(50)] },
  { id: 'monterey', section: '133.153', limits: [atMost(44), fatInDry(50)], source: PASTEURISED_FROM_MEMORY, isPasteurised: true },
  { id: 'high-moisture-jack', name: 'high-moisture jack', section: '133.154', limits: [{ on: 'moisture', above: 44, below: 50 }, fatInDry(50)], source: `moisture: ${TEXT}; fat and pasteurised milk: ${PASTEURISED_FROM_MEMORY}`, isPasteurised: true },
  { id: 'edam', section: '133.138', limits: [atMost(45), fatInDry(40)] },
  { id: 'gouda', section: '133.142', limits: [atMost(45), fatInDry(46)], source: TEXT },
  { id: 'muenster', section: '133.160', limits: [atMost(46), fatInDry(50)], source: TEXT, isPasteurised: true },
  { id: 'brick', section: '133.108', limits: [atMost(44), fatInDry(50)] },
  { id: 'limburger', section: '133.152', limits: [atMost(50), fatInDry(50)] },
  { id: 'blue', section: '133.106', limits: [atMost(46), fatInDry(50)] },
  { id: 'gruyere', section: '133.149', limits: [atMost(39), fatInDry(45)] },
  { id: 'swiss', section: '133.195', limits: [atMost(41), fatInDry(43)] },
  { id: 'asiago-fresh', name: 'asiago fresh', section: '133.102', limits: [atMost(45), fatInDry(50)] },
  { id: 'asiago-medium', name: 'asiago medium', section: '133.103', limits: [atMost(35), fatInDry(45)] },
  { id: 'asiago-old', name: 'asiago old', section: '133.104', limits: [atMost(32), fatInDry(42)] },
  { id: 'parmesan', section: '133.165', limits: [atMost(32), fatInDry(32)] },
  { id: 'romano', section: '133.183', limits: [atMost(34), fatInDry(38)] },
  { id: 'soft-ripened', name: 'soft ripened', section: '133.182', limits: [fatInDry(50)] },
  { id: 'cottage', section: '133.128', limits: [atMost(80), { on: 'fat', min: 4 }], source: PASTEURISED_FROM_MEMORY, isPasteurised: true },
  { id: 'dry-curd-cottage', name: 'dry curd cottage', section: '133.129', limits: [atMost(80), { on: 'fat', max: 0.5 }], source: PASTEURISED_FROM_MEMORY, isPasteurised: true },
  { id: 'cream-cheese', name: 'cream', section: '133.133', limits: [atMost(55), { on: 'fat', min: 33 }], source: PASTEURISED_FROM_MEMORY, isPasteurised: true },
  { id: 'neufchatel', section: '133.162', limits: [atMost(65), { on: 'fat', min: 20, below: 33 }], source: PASTEURISED_FROM_MEMORY, isPasteurised: true },
  { id: 'skim-for-manufacturing', name: 'skim milk cheese for manufacturing', section: '133.189', limits: [atMost(50)], source: TEXT },
];

/** The rows of 21 CFR 133, then California's, then the textbook's ricotta. */
export const US_STANDARDS: readonly NameStandard[] = [
  ...ROWS.map(({ id, name = id, section, limits, source = TABLE, isPasteurised }): NameStandard => ({
    id,
    name,
    rule: `21 CFR ${section}`,
    limits,
    source,
    ...(isPasteurised === undefined ? {} : { needsPasteurisedMilk: isPasteurised }),
  })),
  {
    id: 'california-asadero',
    name: 'asadero',
    rule: '3 CCR 415',
    limits: [atMost(55), fatInDry(40)],
    source: 'California 3 CCR 415, seen; 21 CFR 133 has no section for it',
  },
  {
    id: 'california-feta',
    name: 'feta',
    rule: '3 CCR 415',
    limits: [atMost(50), fatInDry(45)],
    source: 'California 3 CCR 415, seen: 45 to 50 % as printed, the lower figure taken',
  },
  {
    id: 'textbook-ricotta',
    name: 'ricotta',
    rule: 'a textbook table; no section of 21 CFR 133',
    limits: [atMost(80), { on: 'fat', min: 11 }],
    source: 'textbook table, seen at second hand; not a rule',
  },
  {
    id: 'textbook-part-skim-ricotta',
    name: 'part-skim ricotta',
    rule: 'a textbook table; no section of 21 CFR 133',
    limits: [atMost(80), { on: 'fat', min: 6, below: 11 }],
    source: 'textbook table, seen at second hand (6 to 10 % as printed); not a rule',
  },
];
