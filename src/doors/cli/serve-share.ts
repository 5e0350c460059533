/** What `vatside serve --share` says of the network: addresses, the code and its picture, what plain HTTP or a certificate means. */
import type { Say } from '../../exchange/words.ts';
import type { Writer } from '../../exchange/written.ts';
import { wrapped } from '../../exchange/text/layout.ts';
import { terminalCode } from '../../exchange/share/terminal-code.ts';
import { ROLES, type Role } from '../../record/may-note.ts';
import type { ShareSettings } from '../server/share/share-door.ts';
import type { Sharing } from '../server/share/sharing.ts';
import { UsageError } from './world.ts';

/** Longer lines are hard to read, however wide the terminal. */
const WIDEST = 96;

/** Flags of sharing, as they were given. */
export interface ShareFlags {
  readonly share?: boolean | undefined;
  readonly host?: string | undefined;
  readonly 'share-port'?: string | undefined;
  readonly name?: readonly string[] | undefined;
  readonly 'pair-as'?: string | undefined;
  readonly tls?: boolean | undefined;
  readonly cert?: string | undefined;
  readonly key?: string | undefined;
}

/**
 * How to share; undefined where sharing was not asked for.
 * @throws UsageError for a flag that does not belong to the others
 */
export function shareSettings(
  flags: ShareFlags,
  port: (name: string, given: string | undefined) => number | undefined,
): ShareSettings | undefined {
  // prettier-ignore
  const { share = false, host, name, tls = false, cert, key } = flags;
  const own = (['host', 'share-port', 'name', 'pair-as', 'tls', 'cert', 'key'] as const).find((one) => flags[one] !== undefined); // prettier-ignore
  if (!share) {
    if (own === undefined) return undefined;
    throw new UsageError(`--${own} is for a server that is shared: add --share.`);
  }
  if ((cert === undefined) !== (key === undefined)) throw new UsageError('--cert and --key go together: name both files.'); // prettier-ignore
  if (tls && cert !== undefined) throw new UsageError('--tls makes a certificate of its own: leave it out beside --cert.'); // prettier-ignore
  const sharePort = port('share-port', flags['share-port']);
  return {
    ...(host === undefined ? {} : { host }),
    ...(sharePort === undefined ? {} : { port: sharePort }),
    ...(name === undefined ? {} : { names: name }),
    pairAs: roleOf(flags['pair-as'] ?? 'helper'),
    ...(cert !== undefined && key !== undefined ? { tls: { cert, key } } : tls ? { tls: 'own' as const } : {}),
  };
}

function roleOf(given: string): Role {
  const role = ROLES.find((one) => one === given);
  if (role !== undefined) return role;
  throw new UsageError(`--pair-as ${given}: expected one of ${ROLES.join(', ')}.`);
}

/** Where a paired device would go: the code stands after the #, which browsers send to nobody. */
const pairingAddress = (sharing: Sharing, code: string): string | undefined => {
  const [first] = sharing.addresses();
  return first === undefined ? undefined : `${first}/pair#${code}`;
};

/** The addresses, and what is to be known of them, once at the start. */
export function sharedText(input: {
  readonly sharing: Sharing;
  readonly say: Say;
  readonly isOwnCertificate: boolean;
  readonly columns: number | undefined;
}): string {
  const { sharing, say, isOwnCertificate, columns = WIDEST } = input;
  const tell = (...keys: string[]): string[] => keys.flatMap((key) => wrapped({ text: say(`plan-text:serve.${key}`), width: Math.min(columns, WIDEST) })); // prettier-ignore
  const addresses = sharing.addresses();
  const { fingerprint } = sharing;
  const lines = [
    '',
    ...tell(addresses.length === 0 ? 'noNetwork' : 'shared'),
    ...addresses.map((address) => `  ${address}/pair`),
    '',
    ...(fingerprint === null ? tell('plain', 'plainLacks', 'plainNetwork') : [...tell(isOwnCertificate ? 'ownCertificate' : 'givenCertificate'), `  ${fingerprint}`, ...(isOwnCertificate ? tell('trust') : [])]),
    '',
    ...tell('roles'),
  ]; // prettier-ignore
  return `${lines.join('\n')}\n`;
}

/** The code that counts now; with its picture where a person looks and it fits. */
export function codeText(input: {
  readonly sharing: Sharing;
  readonly say: Say;
  readonly clock: Writer['clock'];
  readonly columns: number | undefined;
  readonly isPictured: boolean;
}): string {
  const { sharing, say, clock, columns, isPictured } = input;
  const shown = sharing.code.shown();
  if (shown === null) return `${say('plan-text:serve.codeDead')}\n`;
  const address = pairingAddress(sharing, shown.code);
  const picture = isPictured && columns !== undefined && address !== undefined ? terminalCode(address, columns) : null;
  const words = say('plan-text:serve.code', {
    code: `${shown.code.slice(0, 4)} ${shown.code.slice(4)}`,
    role: say(`plan-text:serve.as.${shown.role}`),
    until: clock(shown.endsAt),
  });
  return `${['', ...(picture ?? []), words].join('\n')}\n`;
}
