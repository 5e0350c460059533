import { existsSync } from 'node:fs';
import type { Server } from 'node:http';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createAdaptorServer } from '@hono/node-server';
import { InputError } from '../../numbers/validity.ts';
import { createApp } from './app.ts';
import { readShelf } from './make-routes.ts';
import { chosenStore, openStore, type StoreAt } from './open-store.ts';
import { sumsIn } from './sums.ts';

const DEFAULT_PORT = 4711;
/** Ports tried after the wanted one, where others are taken. */
const PORTS_TRIED = 20;
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
}

/**
 * Opens the store and serves the app and API on this device.
 * @throws InputError for an address that is not this device's own or a database that does not let it in; StoreTooNewError; an error where no port is free
 */
export async function startServer(
  input: ServeInput = {},
): Promise<{ readonly url: string; readonly store: StoreAt; readonly close: () => Promise<void> }> {
  const {
    port = DEFAULT_PORT,
    host = '127.0.0.1',
    webDir = join(ROOT, 'dist/web'),
    makesDir = join(ROOT, 'makes'),
    wordsDir = join(ROOT, 'words'),
  } = input;
  if (!LOOPBACK.includes(host)) {
    throw new InputError([
      {
        code: 'impossible',
        field: 'host',
        value: host,
        expected: `one of ${LOOPBACK.join(', ')}`,
        remedy: 'The log has no lock of its own yet: serve it to this device only.',
      },
    ]);
  }
  const storeAt = chosenStore({ ...input, environment: process.env });
  const store = await openStore({ at: storeAt, nowMs: Date.now() });
  const app = createApp({
    store,
    shelf: readShelf(makesDir),
    sums: sumsIn(wordsDir),
    wordsDir,
    ...(existsSync(join(webDir, 'index.html')) ? { webDir } : {}),
  });
  const server = createAdaptorServer({ fetch: app.fetch });
  if (!('closeAllConnections' in server)) throw new Error('The server is not plain HTTP.');
  try {
    const taken = await listen({ server, host, port });
    return {
      url: `http://${host === '::1' ? '[::1]' : host}:${taken}/`,
      store: storeAt,
      async close() {
        await closeServer(server);
        await store.close();
      },
    };
  } catch (error) {
    await store.close();
    throw error;
  }
}

async function listen(input: {
  readonly server: Server;
  readonly host: string;
  readonly port: number;
}): Promise<number> {
  const { server, host, port } = input;
  for (let offset = 0; ; offset++) {
    try {
      return await listenOn(server, { host, port: port === 0 ? 0 : port + offset });
    } catch (error) {
      const isTaken = error instanceof Error && 'code' in error && error.code === 'EADDRINUSE';
      if (!isTaken || offset >= PORTS_TRIED) throw error;
    }
  }
}

function listenOn(server: Server, at: { readonly host: string; readonly port: number }): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(at, () => {
      server.off('error', reject);
      const address = server.address();
      resolve(typeof address === 'object' && address !== null ? address.port : at.port);
    });
  });
}

/** Live lines stay open for hours; they are cut, and every client opens its line again by itself. */
function closeServer(server: Server): Promise<void> {
  return new Promise((resolve, reject) => {
    server.close((error) => (error === undefined ? resolve() : reject(error)));
    server.closeAllConnections();
  });
}
