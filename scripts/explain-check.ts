/** `npx tsx scripts/explain-check.ts [MAKES]`: how often the true cause of synthetic failures is found; writes docs/explain.md. */
import { writeFileSync } from 'node:fs';
import { format } from 'prettier';
import { check, confusion, leastShare, reliability, shares, type Checked, type Draw } from '../tests/failures/check.ts';

const makes = Number(process.argv.slice(2).find((arg) => arg !== '--') ?? 300);
if (!Number.isInteger(makes) || makes < 20) throw new RangeError(`makes: ${process.argv[2]} given; a whole number from 20 on`); // prettier-ignore
const MEMBERS = 120;
const SEED = 500;

const run = (draw: Draw, of: number): Checked[] => {
  const checked = check({ makes: of, seed: SEED, draw, members: MEMBERS, now: () => performance.now() });
  const { first, inThree } = shares(checked, ({ placeAmongCauses }) => placeAmongCauses);
  console.log(`${draw}: ${of} makes, of the causes first ${first}, in three ${inThree}`);
  return checked;
};
const byRate = run('by-rate', makes);
const alike = run('alike', makes);
const ordinary = run('ordinary', Math.round(makes / 2));

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [head, head.map(() => '---'), ...rows].map((row) => `| ${row.join(' | ')} |`).join('\n');

function sharesRow(name: string, checked: readonly Checked[]): string[] {
  const causes = shares(checked, ({ placeAmongCauses }) => placeAmongCauses);
  const asked = shares(checked, ({ placeAsked }) => placeAsked);
  const all = shares(checked, ({ place }) => place);
  const cells = [causes.first, causes.inThree, asked.first, asked.inThree, all.first, all.inThree].map(percent);
  return [name, String(causes.makes), ...cells];
}
const SHARES = ['makes', 'number', 'first', 'in three', 'first, asked', 'in three, asked', 'first, with "nothing unusual"', 'in three, with it']; // prettier-ignore
const withMeter = ({ hasMeter }: Checked): boolean => hasMeter;
const without = ({ hasMeter }: Checked): boolean => !hasMeter;

const verdictShares = (checked: readonly Checked[]): string[] =>
  (['nothing', 'cannot', 'perhaps', 'likely'] as const).map((verdict) => percent(checked.filter((one) => one.verdict === verdict).length / checked.length)); // prettier-ignore
const rightWhen = (verdict: Checked['verdict']): string => {
  const of = [...byRate, ...alike].filter((one) => one.verdict === verdict);
  return `${of.filter(({ placeAmongCauses }) => placeAmongCauses === 0).length} of ${of.length}`;
};

const confused = Object.entries(confusion([...byRate, ...alike])).map(([truth, counts]) => {
  const total = Object.values(counts).reduce((sum, count) => sum + count, 0);
  return [truth, String(total), Object.entries(counts).map(([id, count]) => `${id} ${count}`).join(', ')]; // prettier-ignore
});
const PLACES = { causes: (one: Checked) => one.placeAmongCauses, all: (one: Checked) => one.place } as const;
function met(checked: readonly Checked[], place: keyof typeof PLACES): string {
  const found = shares(checked, PLACES[place]);
  const one = (of: 'first' | 'inThree', goal: number): string => {
    const least = leastShare({ goal, makes: checked.length });
    if (found[of] >= goal) return `met with ${percent(found[of])}`;
    return found[of] >= least ? `missed with ${percent(found[of])}, within what chance does to so many (${percent(least)})` : `missed with ${percent(found[of])}`; // prettier-ignore
  };
  return `first ${one('first', 0.6)}, among three ${one('inThree', 0.85)}`;
}

const text = `# How often the true cause is found

Written by \`npx tsx scripts/explain-check.ts ${makes}\`; not by hand. ${MEMBERS} members a cause, seed ${SEED}.

Synthetic makes of both make files, every other one with a pH meter, each with one cause at work and random milk, culture, pot and
hands, taken through step by step (\`tests/failures/failed-make.ts\`). Only makes that failed because of their cause count: with it a
clear fault, a stop or an hour's delay, and without it, in the same milk and hands, none. They are noted as a usual maker notes
(\`tests/failures/usual-notes.ts\`), then the causes are weighed with the notes alone. **By rate**: causes as often as we hold them to
happen. **Alike**: each cause as often as every other. "Asked" is after two questions, answered as often rightly as
\`explain-questions.ts\` holds people to answer.

What this shows is that the weighing finds what the models and our own rates put there. It is not a count of real failures: none was
found, so real makes may be told worse.

## The true cause among the causes

Causes of one family ("too little active rennet") count as one: only the questions tell them apart. The last two columns count
"nothing unusual" as a place too; everybody who asks sees it in the ranking.

${table(SHARES, [
  sharesRow('by rate', byRate),
  sharesRow('by rate, pH meter', byRate.filter(withMeter)),
  sharesRow('by rate, none', byRate.filter(without)),
  sharesRow('alike', alike),
  sharesRow('alike, pH meter', alike.filter(withMeter)),
  sharesRow('alike, none', alike.filter(without)),
])}

Goals: first in 60 %, among three in 85 %.

- By rate, among the causes: ${met(byRate, 'causes')}.
- Alike, among the causes: ${met(alike, 'causes')}.
- By rate, "nothing unusual" counted as a place: ${met(byRate, 'all')}.
- Alike, "nothing unusual" counted as a place: ${met(alike, 'all')}.
- By rate, without a pH meter, among the causes: ${met(byRate.filter(without), 'causes')}.

## What is said of them

${table(
  ['makes', 'nothing unusual', 'cannot tell', 'perhaps', 'most likely'],
  [
    ['by rate', ...verdictShares(byRate)],
    ['alike', ...verdictShares(alike)],
    ['ordinary', ...verdictShares(ordinary)],
  ],
)}

Where it said "most likely", the named cause was the true one in ${rightWhen('likely')} failed makes; where "perhaps", in ${rightWhen('perhaps')}.
Of ${ordinary.length} ordinary makes, ${ordinary.filter(({ first }) => first === 'nothing').length} had "nothing unusual" first.

## Is a probability worth what it says?

Failed makes of both draws by the probability of what came first, "nothing unusual" among them (there it is never right here).

${table(
  ['said', 'was', 'makes'],
  reliability([...byRate, ...alike]).map(({ said, was, makes: of }) => [percent(said), percent(was), String(of)]),
)}

## What was taken for what

Both draws; what came first, "nothing" being nothing unusual.

${table(['true cause', 'makes', 'came first'], confused)}
`;
writeFileSync(new URL('../docs/explain.md', import.meta.url), await format(text, { parser: 'markdown', printWidth: 130, proseWrap: 'preserve' })); // prettier-ignore
