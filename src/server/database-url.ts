import { isIP } from 'node:net';

/** The machines a PostgreSQL address can lead to, and how its driver encrypts on the way there. */
function readUrl(text: string): { hosts: string[]; mode: string | null } {
  const url = new URL(text);
  const { searchParams } = url;
  // the driver takes these over what stands before the path
  const named = searchParams.get('host') ?? decodeURIComponent(url.hostname);
  const hosts = [named, searchParams.get('hostaddr') ?? named];
  return { hosts, mode: searchParams.get('sslmode') };
}

/** A socket of this machine, or an address that never leaves it. */
function staysHere(host: string): boolean {
  const name = host.replace(/^\[|\]$/g, '').toLowerCase();
  if (name.startsWith('/') || name === 'localhost' || name.endsWith('.localhost')) return true;
  return name === '::1' || (isIP(name) === 4 && name.startsWith('127.'));
}

/**
 * Why this address of a database cannot be used as it stands, or null. What goes to another machine is encrypted and
 * the server's certificate checked, or the address says in so many words that it is not: `sslmode=disable`, for a
 * network that is closed already.
 */
export function whyInTheOpen(name: string, text: string): string | null {
  const { hosts, mode } = readUrl(text);
  if (hosts.every(staysHere) || mode === 'verify-full' || mode === 'disable') return null;
  return `${name} leads to another machine; end it with ?sslmode=verify-full, so that the connection is encrypted and the server known, or with ?sslmode=disable where the network is closed to others.`;
}

/** One sentence when records and passwords go to the database in clear, by the operator's own word; else null. */
export const tellInTheOpen = (text: string): string | null => {
  const { hosts, mode } = readUrl(text);
  return mode === 'disable' && !hosts.every(staysHere)
    ? 'The connection to the database on another machine is not encrypted, as its address says: sslmode=disable.'
    : null;
};
