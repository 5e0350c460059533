import { attackApi } from './tests/faults/attack/api-attack.ts';
import { mkdtempSync } from 'node:fs';
const t = Date.now();
const { wrong, ...r } = await attackApi({ folder: mkdtempSync('/tmp/fz/a-'), seed: Number(process.argv[3] ?? 1), runs: Number(process.argv[2]), tell: console.log });
const kinds = new Map<string, string[]>();
for (const w of wrong) { const k = w.slice(0, 90); kinds.set(k, [...(kinds.get(k) ?? []), w]); }
for (const [k, l] of kinds) console.log(l.length, l[0]!.slice(0, 700));
console.log(r, wrong.length, Date.now() - t);
process.exit(0);
