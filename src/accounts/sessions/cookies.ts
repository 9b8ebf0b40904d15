import type { Site } from '../site.ts';

/** `session_token`: who is signed in; `step_token`: a right password that still needs its second step. */
export type CookieOf = 'session_token' | 'step_token';

const nameOf = ({ address }: Pick<Site, 'address'>, cookie: CookieOf): string =>
  `${address.protocol === 'https:' ? '__Secure-' : ''}signed-to-saw.${cookie}`;

/** The value of one of our cookies, or null. */
export function readCookie(
  site: Pick<Site, 'address'>,
  headers: Headers,
  cookie: CookieOf,
): string | null {
  const wanted = `${nameOf(site, cookie)}=`;
  for (const part of (headers.get('cookie') ?? '').split(';')) {
    const one = part.trim();
    if (one.startsWith(wanted) && one.length > wanted.length) return one.slice(wanted.length);
  }
  return null;
}

/** A cookie that no script and no other site can use. @param lasts seconds; 0 takes it away */
export function writeCookie(
  site: Pick<Site, 'address'>,
  cookie: CookieOf,
  value: string,
  lasts: number,
): string {
  const secure = site.address.protocol === 'https:' ? '; Secure' : '';
  return `${nameOf(site, cookie)}=${value}; Max-Age=${lasts}; Path=/; HttpOnly; SameSite=Lax${secure}`;
}
