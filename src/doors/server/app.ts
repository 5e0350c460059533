import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { serveStatic } from '@hono/node-server/serve-static';
import { Hono, type MiddlewareHandler } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { HTTPException } from 'hono/http-exception';
import { secureHeaders } from 'hono/secure-headers';
import { z } from 'zod';
import { longWork, workedOut, type LongWork } from './aside/worked-out.ts';
import { answerRoutes, otherMethod } from './answer-routes.ts';
import type { ServedStore } from '../../store/kept-store.ts';
import { batchRoutes } from './batch-routes.ts';
import { careRoutes } from './care-routes.ts';
import { eventRoutes } from './event-routes.ts';
import { noFlood } from './flood.ts';
import { LOOPBACK_NAMES, ownPagesOnly } from './guard.ts';
import { LiveStreams } from './live-streams.ts';
import { makeRoutes, type MakeShelf } from './make-routes.ts';
import { openApi } from './openapi.ts';
import { answerError, problemAnswer } from './problem.ts';
import { readingRoutes } from './reading-routes.ts';
import type { Route } from './route.ts';
import { serverDevice } from './server-device.ts';
import { solveRoutes } from './solve-routes.ts';
import { LiveLines } from './share/live-lines.ts';
import { pairRoutes } from './share/pair-routes.ts';
import { shareRoutes } from './share/share-routes.ts';
import type { Sharing } from './share/sharing.ts';
import { doorIn, knowWho, only } from './share/who.ts';
import { sumRoutes, type Sums } from './sum-routes.ts';

const LARGEST_BODY_BYTES = 4 * 1024 * 1024;
/** Anybody on the network may send this much before it is known who they are. */
const LARGEST_PAIRING_BYTES = 4 * 1024;
const WORDS = fileURLToPath(new URL('../../../words/', import.meta.url));
const VERSION = '0.1.0';

export interface AppInput {
  readonly store: ServedStore;
  readonly shelf: MakeShelf;
  readonly sums: Sums;
  /** Folder of the built web app; left out, only the API answers. */
  readonly webDir?: string;
  /** Folder of the catalogues that the calendar speaks from; those of this checkout where left out. */
  readonly wordsDir?: string;
  /** Milliseconds UTC; the machine's clock where left out. */
  readonly now?: () => number;
  /** Of live lines, milliseconds; 25,000 where left out. */
  readonly heartbeatMs?: number;
  /** Host names this server answers under on its own machine. */
  readonly names?: readonly string[];
  /** Work of some seconds; done on the thread that asks where left out. */
  readonly work?: LongWork;
  /** Left out, the server answers its own machine only, and whoever sits there is the owner. */
  readonly sharing?: Sharing;
}

/** The whole server as one function of requests; `serve.ts` gives it a port. */
export function createApp(input: AppInput): Hono {
  const { store, shelf, sums, webDir, wordsDir = WORDS, now = Date.now, names = LOOPBACK_NAMES, sharing } = input;
  const { heartbeatMs, work = longWork((given) => Promise.resolve(workedOut(given))) } = input;
  const live = new LiveStreams(store);
  const lines = new LiveLines();
  const app = new Hono();
  app.onError(answerError);
  app.use(async (c, next) => {
    await next();
    // Over plain HTTP from another machine browsers ignore this one, and complain of it on every page.
    const isPlain = sharing !== undefined && sharing.fingerprint === null && doorIn(c, sharing).door === 'shared';
    if (isPlain) c.res.headers.delete('cross-origin-opener-policy');
  });
  app.use(strictHeaders());
  app.use(
    ownPagesOnly((c) =>
      sharing !== undefined && doorIn(c, sharing).door === 'shared' ? [...names, ...sharing.names()] : names,
    ),
  );
  app.use('/api/*', knowWho({ sharing, now }));
  app.use('/api/*', noFlood({ sharing, now }));
  const little = atMost(LARGEST_PAIRING_BYTES);
  const much = atMost(LARGEST_BODY_BYTES);
  const byWhoAsks: MiddlewareHandler = (c, next) => (c.get('who').kind === 'nobody' ? little : much)(c, next);
  app.use('/api/pair', little);
  app.use('/api/*', byWhoAsks);
  app.use('/api/*', async (c, next) => {
    await next();
    c.header('cache-control', 'no-store');
  });

  /** A store out of reach takes nobody's access away. */
  const isPaired = async (id: string): Promise<boolean> => {
    try {
      return (await sharing?.access.find(id)) != null;
    } catch {
      return true;
    }
  };
  const routes: Route[] = [
    {
      method: 'get',
      path: '/api/health',
      needs: 'reader',
      summary: 'Whether the server runs and its store can be read.',
      result: z.object({ ok: z.boolean(), version: z.string() }),
      async answer(c) {
        await store.streamState('device:health');
        return c.json({ ok: true, version: VERSION });
      },
    },
    ...eventRoutes({ store, live, lines, now, isPaired, heartbeatMs }),
    ...pairRoutes({ sharing, store, lines, now }),
    ...shareRoutes({ sharing, lines, now }),
    ...batchRoutes(store),
    ...readingRoutes({ store, live, device: serverDevice(), now }),
    ...makeRoutes(shelf),
    ...careRoutes({ store, wordsDir, now }),
    ...sumRoutes(sums),
    ...solveRoutes(shelf, work.solve),
  ];
  const description = openApi({ routes, version: VERSION });
  routes.push({
    method: 'get',
    path: '/api/openapi.json',
    needs: 'reader',
    summary: 'This description.',
    answer: (c) => c.json(description),
  });
  answerRoutes(app, routes);
  app.all('/api/*', only('reader'), (c) => problemAnswer(c, { status: 404, title: 'Nothing answers here' }));
  app.notFound((c) => problemAnswer(c, { status: 404, title: 'Nothing answers here' }));
  if (webDir !== undefined) serveWeb(app, webDir);
  return app;
}

/** Refuses a larger body. Where there is none, looking for it would make a whole Request of every question, and memory of that. */
function atMost(bytes: number): MiddlewareHandler {
  const limit = bodyLimit({
    maxSize: bytes,
    onError() {
      throw new HTTPException(413, { message: `Send at most ${bytes} bytes at once` });
    },
  });
  return (c, next) => (c.req.method === 'GET' || c.req.method === 'HEAD' ? next() : limit(c, next));
}

/** Nothing but this server's own files: no inline scripts or styles, no frames, no other hosts. */
function strictHeaders() {
  const own = ["'self'"];
  return secureHeaders({
    contentSecurityPolicy: {
      defaultSrc: ["'none'"],
      scriptSrc: own,
      styleSrc: own,
      imgSrc: [...own, 'data:', 'blob:'],
      fontSrc: own,
      connectSrc: own,
      workerSrc: own,
      manifestSrc: own,
      baseUri: ["'none'"],
      formAction: own,
      frameAncestors: ["'none'"],
    },
    referrerPolicy: 'no-referrer',
    xFrameOptions: 'DENY',
    strictTransportSecurity: false,
  });
}

function serveWeb(app: Hono, webDir: string): void {
  app.use(async (c, next) => {
    await next();
    if (c.req.path.startsWith('/api/')) return;
    // Names under assets carry a hash of what is in them.
    const isHashed = c.req.path.startsWith('/assets/') && c.res.ok;
    c.header('cache-control', isHashed ? 'public, max-age=31536000, immutable' : 'no-cache');
  });
  // Whatever a tool left there: a name that begins with a dot is no part of the app.
  app.get('*', async (c, next) => (/(^|[/\\])\./.test(c.req.path) ? c.text('Not found', 404) : next()));
  app.get('*', serveStatic({ root: webDir }));
  // Every place of the app is the one page; files that are missing are missing.
  app.get('*', (c) =>
    /\.\w+$/.test(c.req.path) ? c.text('Not found', 404) : c.html(readFileSync(join(webDir, 'index.html'), 'utf8')),
  );
  app.all('*', (c) => otherMethod(c, ['GET', 'HEAD', 'OPTIONS']));
}
