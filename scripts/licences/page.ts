/** The page of licences, docs/licences.md. */
import { usedPackages, type UsedPackage } from './packages.ts';

const HEAD = `# Licences

Vatside itself is under the MIT licence ([LICENSE](../LICENSE)). This page lists every package that it runs with, those that the
packages bring themselves included, with the licence that each one names; the text lies beside each package in \`node_modules\`.
What is only used to build and test is not listed. Written by \`npx tsx scripts/write-licences.ts\`.

Typefaces and signs are packages too: Atkinson Hyperlegible Next and Bitter (SIL Open Font License), and the outline icons of
\`@tabler/icons\`. \`@photostructure/sqlite\` carries SQLite, which is in the public domain (from memory), and is loaded by older
Nodes alone. Drawings, screens and prints are Vatside's own.
`;

/** The page as Markdown, before it is formatted. */
export function licencesPage(packages: readonly UsedPackage[] = usedPackages()): string {
  const counts = new Map<string, number>();
  for (const { licence } of packages) counts.set(licence, (counts.get(licence) ?? 0) + 1);
  const sum = [...counts].sort(([, a], [, b]) => b - a).map(([licence, count]) => `${licence} ${count}`); // prettier-ignore
  return [
    HEAD,
    `${packages.length} packages: ${sum.join(', ')}.`,
    '',
    '| package | version | licence | brought by |',
    '| --- | --- | --- | --- |',
    ...packages.map(({ name, version, licence, broughtBy }) => `| ${name} | ${version} | ${licence} | ${broughtBy.length === 0 ? 'Vatside' : broughtBy.join(', ')} |`), // prettier-ignore
    '',
  ].join('\n');
}
