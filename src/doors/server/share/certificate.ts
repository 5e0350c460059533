import { X509Certificate } from 'node:crypto';
import { chmodSync, existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { isIP } from 'node:net';
import { join } from 'node:path';
import { createSecureContext } from 'node:tls';
import { InputError, type Problem } from '../../../numbers/validity.ts';

const DAY_MS = 86_400_000;
/** Browsers refuse certificates that last longer than 398 days (CA/Browser Forum, Baseline Requirements 6.3.2; from memory). */
const LASTS_DAYS = 397;
/** Made anew this long before its end. */
const RENEWED_DAYS = 30;

/** A certificate with its key, and what devices show of it. */
export interface Certificate {
  readonly cert: string;
  readonly key: string;
  /** SHA-256, `AB:CD:…`, as browsers write it. */
  readonly fingerprint: string;
  /** Milliseconds UTC. */
  readonly endsAt: number;
}

/**
 * This machine's own certificate, kept in the data folder: the one that is there, or a new one where it ends soon or
 * lacks an address. It signs nothing but itself: whoever trusts it trusts this one machine and nobody else.
 * @param input.hosts the addresses and names that devices ask for
 */
export async function ownCertificate(input: {
  readonly folder: string;
  readonly hosts: readonly string[];
  readonly now: number;
}): Promise<Certificate> {
  const { folder, hosts, now } = input;
  const files = { cert: join(folder, 'vatside-cert.pem'), key: join(folder, 'vatside-key.pem') };
  const kept = existsSync(files.cert) && existsSync(files.key) ? keptIn(files) : null;
  if (kept !== null && kept.endsAt - now > RENEWED_DAYS * DAY_MS && covers(kept.cert, hosts)) return kept;
  const made = await newCertificate(hosts, now);
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  writeWhole(files.key, made.key, 0o600);
  writeWhole(files.cert, made.cert, 0o644);
  return made;
}

async function newCertificate(hosts: readonly string[], now: number): Promise<Certificate> {
  const { generate } = await import('selfsigned');
  const name = hostname().replaceAll(/[^A-Za-z0-9.-]/g, '');
  const { cert, private: key } = await generate([{ name: 'commonName', value: `Vatside on ${name}` }], {
    keyType: 'ec',
    curve: 'P-256',
    algorithm: 'sha256',
    // Clocks in one house differ: it counts from an hour ago.
    notBeforeDate: new Date(now - 3_600_000),
    notAfterDate: new Date(now + LASTS_DAYS * DAY_MS),
    extensions: [
      { name: 'basicConstraints', cA: false, critical: true },
      { name: 'keyUsage', digitalSignature: true, critical: true },
      { name: 'extKeyUsage', serverAuth: true },
      {
        name: 'subjectAltName',
        altNames: hosts.map((host) => (isIP(host) === 0 ? { type: 2, value: host } : { type: 7, ip: host })),
      },
    ],
  });
  return { cert, key, ...readingOf(cert) };
}

/** Null where the files are damaged or do not belong together: they are then made anew. */
function keptIn(files: { readonly cert: string; readonly key: string }): Certificate | null {
  try {
    const cert = readFileSync(files.cert, 'utf8');
    const key = readFileSync(files.key, 'utf8');
    createSecureContext({ cert, key });
    // A key that was copied about may have lost its lock.
    chmodSync(files.key, 0o600);
    return { cert, key, ...readingOf(cert) };
  } catch {
    return null;
  }
}

/**
 * A certificate that the maker brings.
 * @throws InputError naming the file that cannot be used, and why
 */
export function givenCertificate(files: { readonly cert: string; readonly key: string }): Certificate {
  const problems: Problem[] = [];
  const read = (field: 'cert' | 'key'): string => {
    try {
      return readFileSync(files[field], 'utf8');
    } catch (error) {
      problems.push({ code: 'unreadable', field, value: files[field], expected: 'a PEM file that can be read', remedy: error instanceof Error ? error.message : String(error) }); // prettier-ignore
      return '';
    }
  };
  const [cert, key] = [read('cert'), read('key')];
  if (problems.length > 0) throw new InputError(problems);
  try {
    createSecureContext({ cert, key });
    return { cert, key, ...readingOf(cert) };
  } catch (error) {
    throw new InputError([
      { code: 'unreadable', field: 'cert', value: files.cert, expected: 'a PEM certificate and the key that belongs to it', remedy: error instanceof Error ? error.message : String(error) },
    ]); // prettier-ignore
  }
}

/** The names that a certificate is for, as addresses are written; those with a star name nothing by themselves. */
export function namesIn(cert: string): string[] {
  const { subjectAltName = '' } = new X509Certificate(cert);
  return [...subjectAltName.matchAll(/DNS:([^,\s"]+)/g)].map(([, name = '']) => name.toLowerCase()).filter((name) => !name.includes('*')); // prettier-ignore
}

/** Whether a certificate is for each of these addresses and names. */
export function covers(cert: string, hosts: readonly string[]): boolean {
  const read = new X509Certificate(cert);
  return hosts.every((host) => (isIP(host) === 0 ? read.checkHost(host) : read.checkIP(host)) !== undefined);
}

function readingOf(cert: string): Pick<Certificate, 'fingerprint' | 'endsAt'> {
  const { fingerprint256, validTo } = new X509Certificate(cert);
  return { fingerprint: fingerprint256, endsAt: Date.parse(validTo) };
}

/** All of the file or the one before it, also when the power goes in between. */
function writeWhole(file: string, text: string, mode: number): void {
  const beside = `${file}.new`;
  writeFileSync(beside, text, { mode });
  chmodSync(beside, mode);
  renameSync(beside, file);
}
