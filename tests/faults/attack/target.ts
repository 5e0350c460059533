import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Hono } from 'hono';
import { createApp } from '../../../src/doors/server/app.ts';
import { readShelf } from '../../../src/doors/server/make-routes.ts';
import { sumsIn } from '../../../src/doors/server/sums.ts';
import { PairingCode } from '../../../src/doors/server/share/pairing-code.ts';
import type { Door } from '../../../src/doors/server/share/sharing.ts';
import { newToken } from '../../../src/doors/server/share/token.ts';
import { ROLES, type Role } from '../../../src/record/may-note.ts';
import type { SharedStore } from '../../../src/store/access.ts';
import type { KeptStore } from '../../../src/store/kept-store.ts';
import { openPostgresStore } from '../../../src/store/postgres.ts';
import { openSqliteStore } from '../../../src/store/sqlite.ts';

const ROOT = fileURLToPath(new URL('../../../', import.meta.url));
const START = Date.UTC(2026, 10, 29, 9);
/** A quiet network: between two requests passes a second, so that no limit hides what a route does. */
const PACE_MS = 60_000;

/** Who asks: whoever sits at the machine, a device that was paired, or anybody else on the network. */
export const ASKERS = ['owner', ...ROLES, 'nobody'] as const;
export type Asker = (typeof ASKERS)[number];

/** A whole server under attack, its doors open, on a store of its own. */
export interface Target {
  readonly app: Hono;
  readonly store: SharedStore;
  readonly now: () => number;
  readonly ask: (path: string, init: RequestInit & { readonly asker?: Asker }) => Promise<Response>;
  /** The ids that paired devices have, and the code that counts now. */
  readonly deviceIds: readonly string[];
  readonly close: () => Promise<void>;
}

/** @param input.webDir a folder of the web app; left out, only the API answers */
export async function openTarget(input: {
  readonly folder: string;
  /** Of a PostgreSQL to keep everything in; a file in the folder where left out. */
  readonly databaseUrl?: string | undefined;
  readonly webDir?: string;
  readonly paceMs?: number;
}): Promise<Target> {
  const { folder, databaseUrl, webDir, paceMs = PACE_MS } = input;
  const store: KeptStore = await (databaseUrl === undefined
    ? openSqliteStore({ file: join(folder, 'log.sqlite'), nowMs: START })
    : openPostgresStore({ url: databaseUrl, nowMs: START }));
  let at = START;
  const now = (): number => at;
  const tokens = new Map<Role, string>();
  const deviceIds: string[] = [];
  for (const role of ROLES) {
    const { id, secretHash, token } = newToken();
    await store.access.add({ id, name: role, role, secretHash, pairedAt: at, seenAt: at, logDevice: `log-${role}` });
    tokens.set(role, token);
    deviceIds.push(id);
  }
  const app = createApp({
    store,
    shelf: readShelf(join(ROOT, 'makes')),
    sums: sumsIn(join(ROOT, 'words')),
    now,
    ...(webDir === undefined ? {} : { webDir }),
    sharing: {
      access: store.access,
      code: new PairingCode({ role: 'helper', now }),
      addresses: () => ['http://192.0.2.7:4712'],
      names: () => ['192.0.2.7'],
      fingerprint: null,
    },
  });
  return {
    app,
    store,
    now,
    deviceIds,
    async ask(path, { asker = 'owner', ...init }) {
      at += paceMs;
      const door: Door = { door: asker === 'owner' ? 'own' : 'shared', address: '192.0.2.99' };
      const token = asker === 'owner' || asker === 'nobody' ? undefined : tokens.get(asker);
      const headers = new Headers(init.headers);
      if (token !== undefined) headers.set('authorization', `Bearer ${token}`);
      return app.request(`http://localhost${path}`, { ...init, headers }, { ...door });
    },
    close: () => store.close(),
  };
}
