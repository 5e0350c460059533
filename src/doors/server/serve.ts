import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createAdaptorServer } from '@hono/node-server';
import { InputError } from '../../numbers/validity.ts';
import { createApp } from './app.ts';
import { Aside } from './aside/aside.ts';
import { longWork } from './aside/worked-out.ts';
import { closeServer, listen } from './listening.ts';
import { readShelf } from './make-routes.ts';
import { chosenStore, dataFolder, openStore, type StoreAt } from './open-store.ts';
import { shareDoor, type ShareDoor, type ShareSettings } from './share/share-door.ts';
import type { Door } from './share/sharing.ts';
import { sumsIn } from './sums.ts';

const DEFAULT_PORT = 4711;
const LOOPBACK = ['127.0.0.1', 'localhost', '::1'];
const ROOT = fileURLToPath(new URL('../../../', import.meta.url));

export interface ServeInput {
  /** 0 takes any free port. */
  readonly port?: number;
  readonly host?: string;
  /** Where the store is: a folder or a PostgreSQL database, as `chosenStore` says. */
  readonly dataDir?: string;
  readonly databaseUrl?: string;
  readonly webDir?: string;
  readonly makesDir?: string;
  readonly wordsDir?: string;
  /** Opens a second door, to the network, where every device is paired; left out, this machine alone is answered. */
  readonly share?: ShareSettings;
}

/** A server that runs. */
export interface RunningServer {
  /** On this machine. */
  readonly url: string;
  readonly store: StoreAt;
  /** Undefined where the server is not shared. */
  readonly share?: Pick<ShareDoor, 'sharing' | 'onCertificate'>;
  readonly close: () => Promise<void>;
}

/**
 * Opens the store and serves the app and API on this device.
 * @throws InputError for an address that is not this device's own or a database that does not let it in; StoreTooNewError; an error where no port is free
 */
export async function startServer(input: ServeInput = {}): Promise<RunningServer> {
  const {
    port = DEFAULT_PORT,
    host = '127.0.0.1',
    webDir = join(ROOT, 'dist/web'),
    makesDir = join(ROOT, 'makes'),
    wordsDir = join(ROOT, 'words'),
    share,
  } = input;
  if (!LOOPBACK.includes(host)) {
    throw new InputError([
      {
        code: 'impossible',
        field: 'host',
        value: host,
        expected: `one of ${LOOPBACK.join(', ')}`,
        remedy: 'To serve other devices too, share it: then each of them is paired.',
      },
    ]);
  }
  const storeAt = chosenStore({ ...input, environment: process.env });
  const store = await openStore({ at: storeAt, nowMs: Date.now() });
  try {
    const door = share === undefined ? undefined : await shareDoor({ access: store.access, dataDir: dataFolder(input), settings: share, now: Date.now }); // prettier-ignore
    const aside = new Aside();
    const work = longWork(aside.workOut);
    const app = createApp({
      store,
      work,
      shelf: readShelf(makesDir),
      sums: sumsIn(wordsDir, work.sum),
      wordsDir,
      ...(existsSync(join(webDir, 'index.html')) ? { webDir } : {}),
      ...(door === undefined ? {} : { sharing: door.sharing }),
    });
    const answer = (request: Request, at: Door): Response | Promise<Response> => app.fetch(request, { ...at });
    const server = createAdaptorServer({
      fetch: (request, { incoming }) =>
        answer(request, { door: 'own', address: incoming.socket.remoteAddress ?? '', http: incoming.httpVersion }),
    });
    if (!('closeAllConnections' in server)) throw new Error('The server is not plain HTTP.');
    const taken = await listen({ server, host, port });
    try {
      await door?.listen(answer, port === 0 ? 0 : taken);
    } catch (error) {
      await closeServer(server);
      throw error;
    }
    return {
      url: `http://${host === '::1' ? '[::1]' : host}:${taken}/`,
      store: storeAt,
      ...(door === undefined ? {} : { share: door }),
      async close() {
        await Promise.all([closeServer(server), door?.close(), aside.close()]);
        await store.close();
      },
    };
  } catch (error) {
    await store.close();
    throw error;
  }
}
