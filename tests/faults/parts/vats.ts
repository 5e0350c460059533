import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { newSchema } from '../../store/database.ts';
import { keepVats } from '../load/results.ts';
import { holdVats, type VatsFound } from '../load/vats.ts';
import { serve } from '../served.ts';
import type { FaultPart, Figure, PartInput, PartResult } from './part.ts';

const VATS = 200;
const DEVICES_A_VAT = 5;
/** Tablets with the app open on everything: a class that looks on. */
const APPS = 5;
const EVERY_MS = 10_000;
const MINUTES = 5;
/** Shorter than this nothing has come twice. */
const LEAST_MS = 20_000;

/** What is promised of the server under this load. */
const MOST_P95_MS = 250;
const MOST_MB = 400;

export const vats: FaultPart = {
  name: 'vats',
  title: 'Two hundred vats',
  shows:
    'A server in a process of its own, and 1,000 devices at 200 vats, five a vat, in another process: each holds a line open that ' +
    'tells it of its own vat, reads on when it is told, and sends a reading every ten seconds, 100 a second in all. Every reading ' +
    'that was acknowledged must in the end be in the server’s log once, and have come to each of the five devices of its vat once. ' +
    'Besides, five apps follow every vat, as the app does, and must have got every reading. Promised: 95 of 100 readings acknowledged within 250 ms, and the server never above 400 MB. Once on SQLite, and once on ' +
    'PostgreSQL where one is at hand (its own processes are not counted). The full size is five minutes on each.',
  showsNot:
    'a wireless network, which costs more than the server does; devices are plain programs without a screen, and each follows its own vat, as a probe or a tablet beside it does; with ten apps that follow all two hundred this machine was busy to four fifths, with twenty wholly. Both processes and the ' +
    'disk share one machine, so the times are those of a server that is kept from its work by its own clients.',
  async run(input) {
    const results: PartResult[] = [];
    results.push(await held('SQLite', input, { dataDir: input.folder }));
    if ((process.env['VATSIDE_TEST_DATABASE_URL'] ?? '') === '') input.tell('no PostgreSQL at hand: VATSIDE_TEST_DATABASE_URL names none');
    else {
      const schema = await newSchema();
      const dataDir = join(input.folder, 'unused');
      mkdirSync(dataDir);
      results.push(await held('PostgreSQL', input, { dataDir, environment: { VATSIDE_DATABASE_URL: schema.url } }));
      await schema.remove();
    }
    const sum = (of: 'lost' | 'duplicated'): number => results.reduce((all, one) => all + one[of], 0);
    return { figures: results.flatMap(({ figures }) => figures), lost: sum('lost'), duplicated: sum('duplicated'), corrupt: 0, failures: results.flatMap(({ failures }) => failures) };
  },
}; // prettier-ignore

async function held(
  engine: 'SQLite' | 'PostgreSQL',
  { share, isKept, tell }: PartInput,
  where: Parameters<typeof serve>[0],
): Promise<PartResult> {
  const server = serve(where);
  try {
    const url = await server.url;
    const lastsMs = Math.max(LEAST_MS, MINUTES * 60_000 * share);
    tell(`${engine}: ${VATS} vats for ${Math.round(lastsMs / 1000)} s`);
    const found = await holdVats({ url, vats: VATS, devicesAVat: DEVICES_A_VAT, everyMs: EVERY_MS, lastsMs, pid: server.pid, apps: APPS }); // prettier-ignore
    keepVats(engine, found, isKept);
    const failures = [...found.wrong];
    if (server.ended() !== null) failures.push(`the server ended by itself: ${server.said().slice(-500)}`);
    if (found.acknowledgedMs.p95 > MOST_P95_MS) failures.push(`${engine}: 95 of 100 readings within ${found.acknowledgedMs.p95} ms; promised ${MOST_P95_MS}`); // prettier-ignore
    if (found.highestMb !== null && found.highestMb > MOST_MB) failures.push(`${engine}: the server held ${found.highestMb} MB; promised ${MOST_MB}`); // prettier-ignore
    return { figures: figuresOf(engine, found), lost: found.lost, duplicated: found.duplicated, corrupt: 0, failures };
  } finally {
    await server.kill();
  }
}

function figuresOf(engine: string, found: VatsFound): Figure[] {
  const ms = (name: string, value: number): Figure => ({ name: `${engine}: ${name}`, value, unit: 'ms' });
  const { acknowledgedMs, seenMs, everywhereMs, highestMb, serverPercent, clientsPercent } = found;
  return [
    { name: `${engine}: vats`, value: found.vats },
    { name: `${engine}: devices with a line open`, value: found.devices },
    { name: `${engine}: seconds`, value: found.seconds, unit: 's' },
    { name: `${engine}: readings acknowledged`, value: found.acknowledged },
    { name: `${engine}: a second`, value: found.readingsASecond },
    ms('half of them acknowledged within', acknowledgedMs.p50),
    ms('95 of 100', acknowledgedMs.p95),
    ms('all', acknowledgedMs.longest),
    ms('half of them seen by another device of the vat within', seenMs.p50),
    ms('95 of 100', seenMs.p95),
    { name: `${engine}: apps that follow every vat`, value: found.apps },
    ms('half of the readings there within', everywhereMs.p50),
    ms('95 of 100', everywhereMs.p95),
    { name: `${engine}: pages read by the devices`, value: found.pulls },
    ...(highestMb === null ? [] : [{ name: `${engine}: most memory of the server`, value: highestMb, unit: 'MB' }]),
    ...(serverPercent === null ? [] : [{ name: `${engine}: processor of the server`, value: serverPercent, unit: '% of a core' }]), // prettier-ignore
    { name: `${engine}: processor of the devices’ process`, value: clientsPercent, unit: '% of a core' },
  ];
}
