import { hostname, networkInterfaces } from 'node:os';

/** One address of this machine on a network. */
export interface OwnAddress {
  readonly address: string;
  readonly isV6: boolean;
}

/** Names of interfaces that reach no other device in the room: containers, bridges, tunnels. */
const INDOORS = /^(docker|br-|veth|virbr|vmnet|tun|tap|wg|utun|zt|tailscale|awdl|llw)/i;

/**
 * The addresses under which devices on the same network find this machine, the likeliest first.
 * Link-local IPv6 is left out: a browser cannot be given its interface.
 */
export function ownAddresses(interfaces: ReturnType<typeof networkInterfaces> = networkInterfaces()): OwnAddress[] {
  return Object.entries(interfaces)
    .flatMap(([name, all = []]) => all.map((one) => ({ ...one, isIndoors: INDOORS.test(name) })))
    .filter(({ internal, address }) => !internal && !/^(fe80:|169\.254\.)/i.test(address))
    .map(({ address, family, isIndoors }) => ({ address, isV6: family === 'IPv6', isIndoors }))
    .sort((a, b) => Number(a.isIndoors) - Number(b.isIndoors) || Number(a.isV6) - Number(b.isV6))
    .map(({ address, isV6 }) => ({ address, isV6 }));
}

/** As it stands in an address bar. */
export const inUrl = ({ address, isV6 }: OwnAddress): string => (isV6 ? `[${address}]` : address);

/** What this machine calls itself, and what others on the network call it where names are told there (mDNS). */
export function ownNames(name = hostname()): string[] {
  const own = name.toLowerCase();
  if (!/^[a-z0-9.-]+$/.test(own) || own === 'localhost') return [];
  return own.includes('.') ? [own] : [own, `${own}.local`];
}

/** What tries are counted by: an IPv4 address, or the network half of an IPv6 one, of which a machine has as many as it likes. */
export function addressKey(address: string): string {
  const [, mapped] = /^::ffff:(\d+\.\d+\.\d+\.\d+)$/i.exec(address) ?? [];
  if (mapped !== undefined) return mapped;
  if (!address.includes(':')) return address;
  const [head = '', tail] = (address.split('%')[0] ?? '').split('::');
  const before = head === '' ? [] : head.split(':');
  const after = tail === undefined || tail === '' ? [] : tail.split(':');
  const between = tail === undefined ? 0 : Math.max(0, 8 - before.length - after.length);
  return [...before, ...Array.from({ length: between }, () => '0'), ...after].slice(0, 4).join(':').toLowerCase();
}
