// npm run bench [-- --json]: how long a forecast takes, beside C, SUNDIALS and SciPy where they are there (bench/README.md).
// The bench is bundled first, as the web app is: what is timed is the code as it ships, not the loader that runs the checkout.
import { spawnSync } from 'node:child_process';
import { cpus } from 'node:os';
import { join } from 'node:path';
import { ensureInstalled, root } from './install.mjs';

ensureInstalled();
const { build } = await import('vite');

/** Bundles one program of the bench and what it starts beside it, runs it by itself and reads what it prints. */
async function measured(name, ...beside) {
  const outDir = join('.build', 'bench', name);
  await build({
    root,
    configFile: false,
    logLevel: 'error',
    build: {
      ssr: true,
      outDir,
      emptyOutDir: true,
      target: 'node20',
      rollupOptions: {
        input: [name, ...beside].map((one) => `bench/${one}.ts`),
        output: { entryFileNames: '[name].mjs', chunkFileNames: '[name].mjs' },
      },
    },
  });
  const done = spawnSync(process.execPath, [join(root, outDir, `${name}.mjs`)], { cwd: root, encoding: 'utf8' });
  if (done.status !== 0) throw new Error(`bench/${name}.ts: ${done.stderr}`);
  return JSON.parse(done.stdout);
}

const forecast = await measured('forecast', 'part-worker');
const { comparison, ...rest } = await measured('rivals');
const timings = { ...forecast, ...rest };
const machine = { cores: cpus().length, model: cpus()[0]?.model ?? 'unknown', node: process.version };

const NAMES = {
  forecast500: 'forecast of a make, 500 members, two cores',
  forecast500OneCore: 'the same on one core',
  oneMoreReading: 'one more reading over 4000 stored members',
  oneMoreReadingFull: 'the same with new members and new bands',
  solve: 'solve for three free inputs',
  explain: 'explain over all causes',
  forecast200: 'forecast, 200 members (as one types)',
  members500: '500 members, no bands',
  members500ByLibrary: 'the same, acid by a general npm library',
};

function line(name, { msPerMember, worstPH, worstC }, ratio) {
  const figures = `${msPerMember.toFixed(4).padStart(9)} ms  x ${ratio.toFixed(2).padStart(7)}`;
  return `${name.padEnd(44)}${figures}   within ${worstPH.toFixed(4)} pH, ${worstC.toFixed(3)} K`;
}

function print() {
  console.log(`${machine.cores} cores, ${machine.model}, Node ${machine.node}; milliseconds, warm\n`);
  console.log(`${''.padEnd(44)}${['p50', 'p95', 'least', 'undisturbed'].map((head) => head.padStart(12)).join('')}`);
  for (const [key, { p50, p95, least, undisturbed, runs, undisturbedRuns, yardstick }] of Object.entries(timings)) {
    const figures = [p50, p95, least, undisturbed].map((value) => (value?.toFixed(1) ?? '-').padStart(12)).join('');
    const beside =
      undisturbed === null ? `only ${undisturbedRuns} undisturbed: too few` : `${undisturbedRuns} undisturbed`;
    const yard = `yardstick ${yardstick.p50.toFixed(2)}, at its least ${yardstick.least.toFixed(2)}`;
    console.log(`${(NAMES[key] ?? key).padEnd(44)}${figures}   (${runs} runs, ${beside}; ${yard})`);
  }
  console.log('\nOne member of a make by the clock, the vat alone');
  console.log(line('Vatside, TypeScript', comparison.ours, 1));
  for (const rival of comparison.rivals) console.log(line(rival.name, rival, rival.ratio));
  for (const needs of comparison.missing) console.log(`left out, ${needs}`);
}

if (process.argv.includes('--json')) console.log(JSON.stringify({ ...timings, comparison, machine, unit: 'ms' }));
else print();
