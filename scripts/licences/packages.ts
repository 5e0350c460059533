/** The packages that Vatside runs with: those named in package.json and all that they bring, on every system. */
import { existsSync, readFileSync } from 'node:fs';
import { z } from 'zod';

const ROOT = new URL('../../', import.meta.url);

/** Terms under which anybody may use, change and pass on Vatside and what it stands on. */
export const ALLOWED: readonly string[] = [
  'MIT', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause', '0BSD', 'Apache-2.0', 'BlueOak-1.0.0', 'Unlicense', 'CC0-1.0', 'OFL-1.1',
]; // prettier-ignore

export interface UsedPackage {
  readonly name: string;
  readonly version: string;
  /** As SPDX has it; empty where the package names none. */
  readonly licence: string;
  /** The packages that bring it; empty for those that package.json names. */
  readonly broughtBy: readonly string[];
}

const names = z.record(z.string(), z.string()).optional();
const lockedSchema = z.looseObject({ version: z.string().optional(), license: z.string().optional(), dependencies: names, optionalDependencies: names }); // prettier-ignore
const lockSchema = z.looseObject({ packages: z.record(z.string(), lockedSchema) });
const manifestSchema = z.looseObject({ name: z.string(), version: z.string(), license: z.string().optional() });
type Locked = z.infer<typeof lockedSchema>;

/** Every package, by name; licences as the installed package says, and as the lockfile does for those of other systems. */
export function usedPackages(): readonly UsedPackage[] {
  const { packages } = lockSchema.parse(JSON.parse(readFileSync(new URL('package-lock.json', ROOT), 'utf8')));
  const found = new Map<string, UsedPackage>();
  const waiting = brought(packages['']).map((name) => ({ name, by: '', from: '' }));
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const at = placeOf(packages, next);
    const locked = packages[at];
    if (locked === undefined) throw new Error(`${next.name} is not in package-lock.json: run npm install.`);
    const before = found.get(at);
    const by = next.by === '' || before?.broughtBy.includes(next.by) === true ? [] : [next.by];
    found.set(at, { ...(before ?? told({ at, name: next.name, locked })), broughtBy: [...(before?.broughtBy ?? []), ...by].sort() }); // prettier-ignore
    if (before === undefined) for (const name of brought(locked)) waiting.push({ name, by: next.name, from: at });
  }
  return [...found.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
}

const brought = (locked: Locked | undefined): readonly string[] =>
  Object.keys({ ...locked?.dependencies, ...locked?.optionalDependencies });

/** Where Node finds a package from another: in its own folder first, then further up. */
function placeOf(packages: Readonly<Record<string, Locked>>, wanted: { readonly name: string; readonly from: string }): string {
  const steps = wanted.from === '' ? [] : wanted.from.split('/node_modules/');
  for (let depth = steps.length; depth > 0; depth--) {
    const at = `${steps.slice(0, depth).join('/node_modules/')}/node_modules/${wanted.name}`;
    if (packages[at] !== undefined) return at;
  }
  return `node_modules/${wanted.name}`;
} // prettier-ignore

function told(input: { readonly at: string; readonly name: string; readonly locked: Locked }): UsedPackage {
  const { at, name, locked } = input;
  const file = new URL(`${at}/package.json`, ROOT);
  const own = existsSync(file) ? manifestSchema.parse(JSON.parse(readFileSync(file, 'utf8'))) : null;
  return { name, version: own?.version ?? locked.version ?? '', licence: own?.license ?? locked.license ?? '', broughtBy: [] }; // prettier-ignore
}
