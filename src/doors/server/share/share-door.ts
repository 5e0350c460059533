import type { Server } from 'node:http';
import { createServer as createTlsServer, Server as TlsServer } from 'node:https';
import { isIP } from 'node:net';
import { join } from 'node:path';
import { createAdaptorServer } from '@hono/node-server';
import { InputError } from '../../../numbers/validity.ts';
import type { Role } from '../../../record/may-note.ts';
import type { AccessStore } from '../../../store/access.ts';
import { closeServer, listen } from '../listening.ts';
import { inUrl, ownAddresses, ownNames, type OwnAddress } from './addresses.ts';
import { givenCertificate, namesIn, ownCertificate, type Certificate } from './certificate.ts';
import { PairingCode } from './pairing-code.ts';
import type { Door, Sharing } from './sharing.ts';

/** A code whose time is over is followed by the next within this time; an address that changed gets its certificate. */
const CODE_LOOK_MS = 5_000;
const CERTIFICATE_LOOK_MS = 10 * 60_000;
const ALL_ADDRESSES = ['0.0.0.0', '::'];

/** How a server is shared. */
export interface ShareSettings {
  /** The one address to listen on; all of this machine's where left out. */
  readonly host?: string;
  /** The port after the machine's own where left out. */
  readonly port?: number;
  /** More names that devices ask for: those of a router, a domain, a server in front. */
  readonly names?: readonly string[];
  /** What the first code gives; a helper's role where left out. */
  readonly pairAs?: Role;
  /** A certificate of this machine's own making, or files; plain HTTP where left out. */
  readonly tls?: 'own' | { readonly cert: string; readonly key: string };
}

/** The door to the network: what it is to the routes, and its listener. */
export interface ShareDoor {
  readonly sharing: Sharing;
  /** Calls back when this machine showed a new certificate: devices must be told of it. */
  readonly onCertificate: (told: () => void) => void;
  readonly listen: (answer: (request: Request, door: Door) => Response | Promise<Response>, port: number) => Promise<void>; // prettier-ignore
  readonly close: () => Promise<void>;
}

/**
 * Prepares the door to the network; it opens with `listen`.
 * @throws InputError for an address that is not this machine's, a name that is none, a certificate that cannot be used
 */
export async function shareDoor(input: {
  readonly access: AccessStore;
  readonly dataDir: string;
  readonly settings: ShareSettings;
  readonly now: () => number;
}): Promise<ShareDoor> {
  const { access, dataDir, settings, now } = input;
  const host = settings.host === undefined || ALL_ADDRESSES.includes(settings.host) ? undefined : settings.host;
  const given = (settings.names ?? []).map((name) => name.toLowerCase());
  refuseWrong({ host, names: given });
  const { tls } = settings;
  const folder = join(dataDir, 'tls');
  const asked = (): OwnAddress[] => (host === undefined ? ownAddresses() : [{ address: host, isV6: isIP(host) === 6 }]);
  const hosts = (): string[] => [...given, ...asked().map(({ address }) => address), ...ownNames(), 'localhost'];
  const certify = (): Promise<Certificate> => ownCertificate({ folder, hosts: hosts(), now: now() });
  let certificate = tls === undefined ? null : tls === 'own' ? await certify() : givenCertificate(tls);
  const named = tls === undefined || tls === 'own' || certificate === null ? [] : namesIn(certificate.cert);
  const code = new PairingCode({ role: settings.pairAs ?? 'helper', now });
  const scheme = tls === undefined ? 'http' : 'https';
  let port = settings.port ?? 0;
  let server: Server | null = null;
  const told = new Set<() => void>();
  const looks: NodeJS.Timeout[] = [];

  const sharing: Sharing = {
    access,
    code,
    // A given certificate is for its names: a bare address would be refused by every browser.
    addresses: () => [...new Set([...given, ...named, ...asked().map(inUrl)])].map((at) => `${scheme}://${at}:${port}`),
    names: () => [...given, ...named, ...asked().map(inUrl), ...ownNames()].map((name) => name.toLowerCase()),
    get fingerprint() {
      return certificate?.fingerprint ?? null;
    },
  };

  return {
    sharing,
    onCertificate: (listener) => void told.add(listener),
    async listen(answer, ownPort) {
      const made = createAdaptorServer({
        fetch: (request, { incoming }) =>
          answer(request, { door: 'shared', address: incoming.socket.remoteAddress ?? 'unknown' }),
        ...(certificate === null
          ? {}
          : { createServer: createTlsServer, serverOptions: { cert: certificate.cert, key: certificate.key } }),
      });
      if (!('closeAllConnections' in made)) throw new Error('The server speaks another HTTP than was asked for.');
      port = await listen({ server: made, ...(host === undefined ? {} : { host }), port: settings.port ?? (ownPort === 0 ? 0 : ownPort + 1) }); // prettier-ignore
      server = made;
      looks.push(setInterval(() => code.shown(), CODE_LOOK_MS).unref());
      if (tls !== 'own' || !(made instanceof TlsServer)) return;
      const look = async (): Promise<void> => {
        const next = await certify();
        if (next.fingerprint === certificate?.fingerprint) return;
        certificate = next;
        made.setSecureContext({ cert: next.cert, key: next.key });
        for (const listener of told) listener();
      };
      // The data folder may be full or gone for a while; the certificate that is shown goes on serving.
      looks.push(setInterval(() => void look().catch(console.error), CERTIFICATE_LOOK_MS).unref());
    },
    async close() {
      for (const look of looks) clearInterval(look);
      if (server !== null) await closeServer(server);
    },
  };
}

function refuseWrong(input: { readonly host: string | undefined; readonly names: readonly string[] }): void {
  const { host, names } = input;
  const own = ownAddresses().map(({ address }) => address);
  if (host !== undefined && !own.includes(host)) {
    throw new InputError([
      { code: 'impossible', field: 'host', value: host, expected: `an address of this machine: ${[...own, ...ALL_ADDRESSES].join(', ')}`, remedy: 'Leave it out to serve on all of them.' },
    ]); // prettier-ignore
  }
  const wrong = names.find((name) => !/^[a-z0-9]([a-z0-9.-]{0,251}[a-z0-9])?$/.test(name));
  if (wrong === undefined) return;
  throw new InputError([
    { code: 'impossible', field: 'name', value: wrong, expected: 'a host name such as dairy.local', remedy: 'Give the name alone, without http:// and without a port.' },
  ]); // prettier-ignore
}
