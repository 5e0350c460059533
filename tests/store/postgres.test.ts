import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { StoreTooNewError } from '../../src/store/port.ts';
import { openPostgresStore } from '../../src/store/postgres.ts';
import { STORE_FORMAT } from '../../src/store/sql-schema.ts';
import { accessContract } from './access.ts';
import { batchListContract } from './batch-list.ts';
import { storeContract } from './contract.ts';
import { newSchema, type Schema } from './database.ts';
import { identityContract } from './identity.ts';
import { notingDevice } from './sample-events.ts';

const nowMs = 1_790_000_000_000;

const newPlace = () => {
  let schema: Promise<Schema> | undefined;
  return {
    open: async () => openPostgresStore({ url: (await (schema ??= newSchema())).url, nowMs }),
    async remove() {
      await (await schema)?.remove();
      schema = undefined;
    },
  };
};
storeContract('PostgreSQL', newPlace);
accessContract('PostgreSQL', newPlace);
batchListContract('PostgreSQL', newPlace);
identityContract('PostgreSQL', newPlace);

describe('a PostgreSQL database', () => {
  let schema: Schema;
  beforeEach(async () => {
    schema = await newSchema();
  });
  afterEach(() => schema.remove());
  const open = () => openPostgresStore({ url: schema.url, nowMs });

  it('is made ready by one of six servers that start at once, while the others wait', async () => {
    const stores = await Promise.all(Array.from({ length: 6 }, open));
    const notes = stores.map((store, index) => store.append([notingDevice(`device-${index}`)('foam')]));
    await Promise.all(notes);
    expect(await stores[0]!.listStreams()).toEqual([{ streamId: 'batch:ash', last: 6 }]);
    const formats = Array.from({ length: STORE_FORMAT + 1 }, (_, format) => ({ format }));
    expect(await schema.run('select format from store_format order by format')).toEqual(formats);
    await Promise.all(stores.map((store) => store.close()));
  });

  it('is left alone by a program that is older than its format', async () => {
    await (await open()).close();
    await schema.run('insert into store_format (format, applied_at) values (99, 0)');
    await expect(open()).rejects.toThrow(StoreTooNewError);
  });

  it('takes nothing from a server that is still running when a newer program has changed its format', async () => {
    const store = await open();
    const note = notingDevice('desk');
    await store.append([note('warm')]);
    await schema.run('insert into store_format (format, applied_at) values (99, 0)');
    await expect(store.append([note('foam'), note('foam', 'batch:birch')])).rejects.toThrow(StoreTooNewError);
    expect(await store.listStreams()).toEqual([{ streamId: 'batch:ash', last: 1 }]);
    await store.close();
  });

  it('numbers without holes or doubles what four servers write to the same and to other makes at once, one note twice', async () => {
    const stores = await Promise.all(Array.from({ length: 4 }, open));
    const twice = notingDevice('probe')('read twice');
    const rounds = stores.flatMap((store, index) => {
      const note = notingDevice(`device-${index}`);
      // Each in its own order of makes: locks that were taken in that order would meet head on.
      const makes = index % 2 === 0 ? ['batch:ash', 'batch:birch'] : ['batch:birch', 'batch:ash'];
      return Array.from({ length: 8 }, () => store.append([...makes.map((make) => note('look', make)), twice]));
    });
    const states = (await Promise.all(rounds)).map((answers) => answers.at(-1)?.state);
    expect(states.filter((state) => state === 'added')).toHaveLength(1);
    const read = await stores[0]!.readAll({ after: 0 });
    const places = (make: string) => read.filter(({ event }) => event.streamId === make).map(({ n }) => n);
    expect(places('batch:ash')).toEqual(Array.from({ length: 33 }, (_, index) => index + 1));
    expect(places('batch:birch')).toEqual(Array.from({ length: 32 }, (_, index) => index + 1));
    await Promise.all(stores.map((store) => store.close()));
  });
});
