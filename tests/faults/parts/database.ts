import { clusterFrom, restartRounds } from '../database-restarts.ts';
import type { FaultPart } from './part.ts';

const RESTARTS = 40;

export const database: FaultPart = {
  name: 'database',
  title: 'Shared database restarted under load',
  shows:
    'Two servers share one PostgreSQL. Four devices push to both without pause; at a random moment the database is stopped at once ' +
    '(`pg_ctl restart -m immediate`: no checkpoint, every connection cut, recovery from its log on the start), one time in five one of ' +
    'the two servers is killed as well. A server waits some seconds for the database and else answers 503, “come again”; what was ' +
    'acknowledged must be there, once, in its place, and steps and timers must stand as before.',
  showsNot:
    'a power cut under the database, nor a database of several machines that loses one: none could be tried here. PostgreSQL’s own ' +
    'settings (`fsync`, `synchronous_commit`) are left as they come; whoever turns them off gives the promise away.',
  async run({ seed, share, tell }) {
    const cluster = clusterFrom(process.env);
    if (cluster === null) {
      return {
        figures: [],
        lost: 0,
        duplicated: 0,
        corrupt: 0,
        failures: [],
        leftOut: 'there is no PostgreSQL here to restart',
      };
    }
    const found = await restartRounds({ cluster, rounds: Math.max(2, Math.round(RESTARTS * share)), seed, tell });
    return {
      figures: [
        { name: 'restarts of the database survived', value: found.restarts },
        { name: 'servers killed beside', value: found.serverKills },
        { name: 'events acknowledged', value: found.acknowledged },
        { name: 'events kept in the end', value: found.kept },
        { name: 'pushes answered with “come again”', value: found.putOff },
      ],
      lost: found.lost,
      duplicated: found.duplicated,
      corrupt: 0,
      failures: found.failures.slice(0, 20),
    };
  },
};
