import { isIPv6 } from 'node:net';

/**
 * What is counted as one address: an IPv4 address, or the 64 leading bits of an IPv6 one, all of whose others a single
 * machine may take as it likes (RFC 4291, 2.5.4). What is no address is counted as it is written.
 */
export function networkOf(address: string): string {
  const mapped = /^::ffff:(\d+\.\d+\.\d+\.\d+)$/i.exec(address)?.[1];
  if (mapped !== undefined) return mapped;
  const [unzoned = ''] = address.split('%');
  if (!isIPv6(unzoned)) return address;
  // an address has many spellings, and this one is without dots
  const written = new URL(`http://[${unzoned}]`).hostname.slice(1, -1);
  const [before = '', after] = written.split('::').map((part) => part.split(':').filter(Boolean));
  const missing = after === undefined ? 0 : 8 - before.length - after.length;
  const groups = [...before, ...Array.from({ length: missing }, () => '0'), ...(after ?? [])];
  return `${groups.slice(0, 4).join(':')}::/64`;
}
