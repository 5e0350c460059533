import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { startServer, type RunningServer } from '../../src/doors/server/serve.ts';
import type { ShareSettings } from '../../src/doors/server/share/share-door.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

export interface TestServer {
  /** Without a slash at the end. */
  readonly url: string;
  /** Where it was started with a door to the network. */
  readonly share: RunningServer['share'];
  readonly close: () => Promise<void>;
}

let isBuilt = false;

/** Builds the web app where a source is newer; once is enough for all the servers of a test file. */
function buildOnce(): void {
  if (isBuilt) return;
  // The runner's own NODE_ENV would make it a development build, without the service worker.
  const env = { ...process.env, NODE_ENV: 'production' };
  const built = spawnSync(process.execPath, [join(ROOT, 'scripts', 'build.mjs')], { cwd: ROOT, encoding: 'utf8', env });
  if (built.status !== 0) throw new Error(`The web app does not build:\n${built.stdout}\n${built.stderr}`);
  isBuilt = true;
}

/** Serves the web app as `npm start` does, with an empty store of its own. */
export async function startTestServer(share?: ShareSettings): Promise<TestServer> {
  buildOnce();
  const dataDir = mkdtempSync(join(tmpdir(), 'vatside-browser-'));
  const server = await startServer({
    port: 0,
    dataDir,
    webDir: join(ROOT, 'dist', 'web'),
    ...(share === undefined ? {} : { share }),
  });
  return {
    url: server.url.replace(/\/$/, ''),
    share: server.share,
    close: async () => {
      await server.close();
      rmSync(dataDir, { recursive: true, force: true });
    },
  };
}
