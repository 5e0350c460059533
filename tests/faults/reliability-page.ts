import { PARTS } from './parts.ts';
import type { Ran, Results } from './results.ts';

const HEAD = `# Nothing lost: what was tried

What a maker has been told is saved must be there afterwards, once, whatever broke in between. \`npm run faults\` breaks
things on purpose and counts. This page is written from the counts of the last run that was kept
(\`npm run faults -- --keep\`; the counts themselves are in \`reliability.json\`). Change nothing here by hand.

*Acknowledged* means: the server answered for that event by its id, or the device said that it is saved. Only then is
anything promised. Figures are of the machine named beside them; chance comes from a seed, so a run can be repeated, though
the moment at which a process dies is never quite the same twice.
`;

/** `docs/reliability.md` from the results of the parts. */
export function reliabilityPage(results: Results): string {
  const rans = Object.keys(PARTS).flatMap((name) => results[name] ?? []);
  return [HEAD, summary(rans), ...rans.map(section)].join('\n');
}

function summary(rans: readonly Ran[]): string {
  const rows = rans.map(({ title, result: { lost, duplicated, corrupt, failures, leftOut } }) =>
    row([
      title,
      String(lost),
      String(duplicated),
      String(corrupt),
      leftOut === undefined ? whole(failures) : 'left out',
    ]),
  );
  return [row(['What was tried', 'Lost', 'Twice', 'Damaged', 'Held']), row(['---', '---:', '---:', '---:', '---']), ...rows, ''].join('\n'); // prettier-ignore
}

const whole = (failures: readonly string[]): string => (failures.length === 0 ? 'yes' : 'no, see below');

function section({ title, shows, showsNot, date, machine, seed, share, seconds, result }: Ran): string {
  const size = share === 1 ? 'in full' : `a share of ${share} of the full size`;
  return [
    `## ${title}`,
    '',
    shows,
    '',
    row(['', '']),
    row(['---', '---:']),
    ...result.figures.map(({ name, value, unit }) => row([name, `${number(value)}${unit === undefined ? '' : ` ${unit}`}`])), // prettier-ignore
    '',
    ...result.failures.map((failure) => `**Not as promised:** ${failure.split('\n')[0] ?? ''}\n`),
    ...(result.leftOut === undefined ? [] : [`**Left out:** ${result.leftOut}\n`]),
    `*What this does not show:* ${showsNot}`,
    '',
    `${date}, ${machine}; seed ${seed}, ${size}, ${seconds} s.`,
    '',
  ].join('\n');
}

const number = (value: number): string => value.toLocaleString('en-GB', { maximumFractionDigits: 1 });

function row(cells: readonly string[]): string {
  return `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
}
