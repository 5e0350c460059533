import type { Server } from 'node:http';

/** Ports tried after the wanted one, where others are taken. */
const PORTS_TRIED = 20;

/**
 * Opens a server's port.
 * @param input.host an address of this machine; all of them where left out
 * @param input.port 0 takes any free one; a taken one is followed by the next
 * @returns the port it got
 */
export async function listen(input: {
  readonly server: Server;
  readonly host?: string;
  readonly port: number;
}): Promise<number> {
  const { server, host, port } = input;
  for (let offset = 0; ; offset++) {
    try {
      return await listenOn(server, { ...(host === undefined ? {} : { host }), port: port === 0 ? 0 : port + offset });
    } catch (error) {
      const isTaken = error instanceof Error && 'code' in error && error.code === 'EADDRINUSE';
      if (!isTaken || offset >= PORTS_TRIED) throw error;
    }
  }
}

function listenOn(server: Server, at: { readonly host?: string; readonly port: number }): Promise<number> {
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
export function closeServer(server: Server): Promise<void> {
  return new Promise((resolve, reject) => {
    server.close((error) => (error === undefined ? resolve() : reject(error)));
    server.closeAllConnections();
  });
}
