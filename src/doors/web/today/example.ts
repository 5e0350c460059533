import { demoEvents, parseDemo } from '../../../exchange/demo.ts';
import type { EventLog } from '../log/event-log.ts';
import { fetchAllMakes } from '../makes/make-shelf.ts';

const files = import.meta.glob<unknown>('../../../../demo/larkenshaw.json', { import: 'default' });

/** Takes the worked example into this device's log: an invented teaching dairy, its make under way moved to now. */
export async function openExample(log: EventLog): Promise<void> {
  const [load] = Object.values(files);
  if (load === undefined) throw new Error('The example is not part of this build.');
  const now = new Date();
  await log.takeIn(
    demoEvents({
      demo: parseDemo(await load()),
      makes: await fetchAllMakes(),
      nowAt: now.getTime(),
      utcOffsetMin: -now.getTimezoneOffset(),
    }),
  );
}
