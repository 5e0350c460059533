import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ACID_STATE } from '../src/science/acidification.ts';
import type { Inputs } from '../src/forecast/inputs.ts';
import { STEP_MIN } from '../src/forecast/step-length.ts';
import type { Vat } from '../src/forecast/vat-state.ts';
import { runClocked } from './clocked-make.ts';
import { writeTape } from './tape.ts';

/**
 * The same make by the clock in other hands: our algorithm written in C, and the same equations by SUNDIALS CVODE and by
 * SciPy's LSODA, each held to the same truth. Each needs a Debian package; what is not there is left out, and said.
 */
export interface Rival {
  readonly name: string;
  readonly msPerMember: number;
  /** Furthest from the truth at the end of the make, over all members. */
  readonly worstPH: number;
  readonly worstC: number;
  /** Its time over ours, measured in turns with it. */
  readonly ratio: number;
}

export interface Comparison {
  readonly ours: Omit<Rival, 'ratio' | 'name'>;
  readonly rivals: readonly Rival[];
  /** Why some are missing. */
  readonly missing: readonly string[];
}

const FLAGS = ['-O3', '-Wall'];
const CVODE = ['-lsundials_cvode', '-lsundials_nvecserial', '-lsundials_sunlinsoldense', '-lsundials_sunmatrixdense'];
/** Relative tolerance given to the general integrators: the loosest power of ten that holds 0.01 pH and 0.05 K. */
const TOLERANCE = '1e-4';
const ROUNDS = 5;

export function compare(input: { vat: Vat; members: readonly Inputs[]; root: string }): Comparison {
  const { vat, members, root } = input;
  const out = join(root, '.build', 'bench', 'native');
  mkdirSync(out, { recursive: true });
  const path = join(out, 'tape.bin');
  const tape = writeTape({ vat, members, stepMin: STEP_MIN });
  writeFileSync(path, tape.bytes);
  const worst = { pH: 0, c: 0 };
  members.forEach((inputs, i) => {
    runClocked(vat, inputs, STEP_MIN);
    const [pH = Number.NaN, temperatureC = Number.NaN] = tape.truth[i] ?? [];
    worst.pH = Math.max(worst.pH, Math.abs((vat.acid[ACID_STATE.curdPH] ?? 0) - pH));
    worst.c = Math.max(worst.c, Math.abs(vat.temperatureC - temperatureC));
  });
  const missing: string[] = [];
  const programs = programsFor({ root, out, path, members: members.length }).filter(({ build, needs }) => {
    const isThere = build();
    if (!isThere) missing.push(needs);
    return isThere;
  });
  // In turns, and the least of each: another program on the machine then slows all of them alike.
  let ours = ourMs(vat, members);
  const best = new Map<string, Said>();
  for (let round = 0; round < ROUNDS; round++) {
    for (const { name, run } of programs) {
      const said = run();
      ours = Math.min(ours, ourMs(vat, members));
      const before = best.get(name);
      if (before === undefined || said.msPerMember < before.msPerMember) best.set(name, said);
    }
  }
  const rivals = [...best].map(([name, said]) => ({ name, ...said, ratio: said.msPerMember / ours }));
  return { ours: { msPerMember: ours, worstPH: worst.pH, worstC: worst.c }, rivals, missing };
}

function ourMs(vat: Vat, members: readonly Inputs[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 12; i++) {
    const started = performance.now();
    for (const inputs of members) runClocked(vat, inputs, STEP_MIN);
    least = Math.min(least, performance.now() - started);
  }
  return least / members.length;
}

type Said = Omit<Rival, 'ratio' | 'name'>;

interface Program {
  readonly name: string;
  readonly needs: string;
  readonly build: () => boolean;
  readonly run: () => Said;
}

function programsFor(at: { root: string; out: string; path: string; members: number }): Program[] {
  const source = (name: string): string => join(at.root, 'bench', 'native', name);
  const compiled = (name: string, libraries: readonly string[]) => (): boolean =>
    succeeds('cc', [...FLAGS, '-o', join(at.out, name), source(`${name}.c`), ...libraries, '-lm']);
  const cvode = (method: 'bdf' | 'adams'): Program => ({
    name: `SUNDIALS CVODE, ${method === 'bdf' ? 'BDF' : 'Adams'}, C`,
    needs: 'SUNDIALS CVODE: apt-get install gcc libsundials-dev',
    build: compiled('cvode', CVODE),
    run: () => said(join(at.out, 'cvode'), [at.path, TOLERANCE, method, String(Math.min(at.members, 100)), '1']),
  });
  return [
    {
      name: 'the same algorithm, C',
      needs: 'C: apt-get install gcc',
      build: compiled('same', []),
      run: () => said(join(at.out, 'same'), [at.path, '20']),
    },
    cvode('bdf'),
    cvode('adams'),
    {
      name: 'SciPy LSODA, Python',
      needs: 'SciPy LSODA: apt-get install python3-scipy',
      build: () => succeeds('/usr/bin/python3', ['-c', 'import scipy.integrate']),
      run: () => said('/usr/bin/python3', [source('lsoda.py'), at.path, TOLERANCE, '4']),
    },
  ];
}

const succeeds = (command: string, args: readonly string[]): boolean =>
  spawnSync(command, args, { stdio: 'ignore' }).status === 0;

function said(command: string, args: readonly string[]): Said {
  const done = spawnSync(command, args, { encoding: 'utf8' });
  if (done.status !== 0) throw new Error(`${command}: ${done.stderr}`);
  const answer: unknown = JSON.parse(done.stdout);
  const number = (name: string): number => {
    const value: unknown = typeof answer === 'object' && answer !== null ? Reflect.get(answer, name) : undefined;
    return typeof value === 'number' ? value : Number.NaN;
  };
  return { msPerMember: number('msPerMember'), worstPH: number('worstPH'), worstC: number('worstC') };
}
