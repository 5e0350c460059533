import { fileOf } from './camera.ts';
import type { Group, State, Sitting } from './sitting.ts';

const line = ({ sizes }: Sitting, { name, sees }: State): string =>
  `- ${sees} ${sizes.map((size) => `[${size}](${fileOf(name, size)})`).join(' · ')}`;

/** The page that says, in a line each, what one sees. */
export function indexPage(groups: readonly Group[]): string {
  const parts = groups.map(({ title, sittings }) =>
    [`## ${title}`, '', ...sittings.flatMap((sitting) => sitting.states.map((state) => line(sitting, state)))].join(
      '\n',
    ),
  );
  return [
    '# Screens',
    '',
    'Pictures of the screens and their states, taken from the running program with `npx tsx scripts/write-screens.ts`. The names are the sizes: phone 390 × 844, small 320 × 700, tablet 820 × 1180, wide 1180 × 820, desk 1280 × 900. The pots are invented; Larkenshaw is the worked example.',
    '',
    parts.join('\n\n'),
    '',
  ].join('\n');
}
