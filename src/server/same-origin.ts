import type { IncomingHttpHeaders } from 'node:http';
import { isIP } from 'node:net';
import { hostname } from 'node:os';

const SAFE_METHODS = new Set(['GET', 'HEAD', 'OPTIONS']);

/** The host name in a Host header, without port and without the brackets of an IPv6 address. */
function hostNameOf(host: string): string | null {
  try {
    return new URL(`http://${host}`).hostname.replace(/^\[|\]$/g, '').toLowerCase();
  } catch {
    return null;
  }
}

/**
 * Whether the request names a host this site answers to: the one set as SITE_URL, an IP address,
 * localhost or this machine's own name. Anything else may be a stranger's name pointed at this
 * machine, through which a web page elsewhere could pass for this site.
 */
export function isOwnHost(host: string | undefined, siteUrl: URL | null): boolean {
  if (host === undefined) return false;
  if (siteUrl !== null && host.toLowerCase() === siteUrl.host) return true;
  const name = hostNameOf(host);
  if (name === null) return false;
  const machine = hostname().toLowerCase();
  return (
    isIP(name) !== 0 ||
    name === 'localhost' ||
    name.endsWith('.localhost') ||
    name === machine ||
    name === `${machine}.local`
  );
}

/**
 * Whether a request that may change something comes from a page of this site. A browser says so itself
 * (Sec-Fetch-Site, Origin); a request that says neither is refused, so no form elsewhere can post here.
 */
export function isSameOrigin(
  method: string,
  headers: IncomingHttpHeaders,
  siteUrl: URL | null,
): boolean {
  if (SAFE_METHODS.has(method)) return true;
  const site = headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin') return false;
  const { origin, host } = headers;
  if (origin === undefined) return site === 'same-origin';
  if (siteUrl !== null && origin === siteUrl.origin) return true;
  return host !== undefined && origin === `http://${host.toLowerCase()}`;
}
