import fc from 'fast-check';
import { anyHour } from '../three-devices.ts';
import { liveHour } from '../live-hour.ts';
import { arrivals } from '../arrivals.ts';
import type { FaultPart } from './part.ts';

/** Hours lived through, and logs that arrive in any order, at full size. */
const HOURS = 400;
const ARRIVALS = 5000;

export const merges: FaultPart = {
  name: 'merges',
  title: 'Devices out of touch',
  shows:
    'Two tablets and a phone stand at one make for an hour, with clocks up to six hours off either way and set in the ' +
    'middle of it, mostly without a network. Everybody notes, begins and ends steps, sets and answers timers, sets right and takes ' +
    'back. Exchanges happen in any order, answers are lost after the server has acted, browsers are closed and opened, ' +
    'logs are handed over as files, backwards and twice. At the end all four (three devices and the server) must hold each ' +
    'event once and tell the same story, and whatever a device knew when it noted something must stand before that note. ' +
    'The log is the app’s own, over a browser store kept in memory; the server is the real one. Beside that, whole logs are merged ' +
    'in any order and any number of times without a network at all.',
  showsNot:
    'that a browser on a real tablet keeps its store: the browser store here is a stand-in that keeps the standard’s rules. ' +
    'Events of devices that had not heard of each other have no true order; they get the same one everywhere.',
  async run({ seed, share, tell }) {
    const total = { hours: 0, merges: 0, events: 0, ordered: 0, lost: 0, duplicated: 0 };
    const failures: string[] = [];
    const runs = Math.ceil(HOURS * share);
    const checked = await fc.check(
      fc.asyncProperty(anyHour, async (hour) => {
        const found = await liveHour(hour);
        total.hours++;
        for (const count of ['merges', 'events', 'ordered', 'lost', 'duplicated'] as const)
          total[count] += found[count];
        if (total.hours % 100 === 0) tell(`${total.hours} of ${runs} hours`);
        return found.wrong.length + found.lost + found.duplicated === 0 ? true : Promise.reject(new Error(found.wrong.join('; '))); // prettier-ignore
      }),
      { seed, numRuns: runs },
    );
    if (checked.failed) failures.push(`${checked.errorInstance instanceof Error ? checked.errorInstance.message : 'an hour went wrong'}: ${JSON.stringify(checked.counterexample)}`); // prettier-ignore
    const arrived = arrivals({ seed, runs: Math.ceil(ARRIVALS * share) });
    failures.push(...arrived.wrong);
    return {
      figures: [
        { name: 'hours with three devices', value: total.hours },
        { name: 'events noted in them', value: total.events },
        { name: 'exchanges that brought news (offline merges tried)', value: total.merges },
        { name: 'pairs of events whose order was known, and held', value: total.ordered },
        { name: 'logs merged in any order and number', value: arrived.tried },
      ],
      lost: total.lost,
      duplicated: total.duplicated,
      corrupt: 0,
      failures,
    };
  },
};
