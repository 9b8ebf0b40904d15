import type { Site } from '../site.ts';

/** `session_token`: who is signed in; `step_token`: a right password that still needs its second step. */
export type CookieOf = 'session_token' | 'step_token';

type Reached = Pick<Site, 'address'>;

const isSafe = ({ address }: Reached): boolean => address.protocol === 'https:';

/** `__Host-`: the browser takes it over https alone, for the whole site, and from no other host of the domain. */
const nameOf = (site: Reached, cookie: CookieOf): string =>
  `${isSafe(site) ? '__Host-' : ''}signed-to-saw.${cookie}`;

/** The name a cookie had over https before, when a host beside ours could plant it. */
const formerNameOf = (cookie: CookieOf): string => `__Secure-signed-to-saw.${cookie}`;

/** The value of one of our cookies, or null. */
export function readCookie(site: Reached, headers: Headers, cookie: CookieOf): string | null {
  return cookieNamed(headers, nameOf(site, cookie));
}

function cookieNamed(headers: Headers, name: string): string | null {
  const wanted = `${name}=`;
  for (const part of (headers.get('cookie') ?? '').split(';')) {
    const one = part.trim();
    if (one.startsWith(wanted) && one.length > wanted.length) return one.slice(wanted.length);
  }
  return null;
}

/** A cookie that no script and no other site can use. @param lasts seconds; 0 takes it away */
export function writeCookie(site: Reached, cookie: CookieOf, value: string, lasts: number): string {
  return `${nameOf(site, cookie)}=${value}; ${flagsOf(site, lasts)}`;
}

function flagsOf(site: Reached, lasts: number): string {
  const secure = isSafe(site) ? '; Secure' : '';
  return `Max-Age=${lasts}; Path=/; HttpOnly; SameSite=Lax${secure}`;
}

/**
 * What to end when somebody signs out: the token of a cookie, and the line that takes the cookie away; those of its
 * former name among them, which open nothing any more.
 */
export function cookiesToEnd(
  site: Reached,
  headers: Headers,
  cookie: CookieOf,
): readonly { readonly token: string; readonly clear: string }[] {
  const names = isSafe(site)
    ? [nameOf(site, cookie), formerNameOf(cookie)]
    : [nameOf(site, cookie)];
  return names.flatMap((name) => {
    const token = cookieNamed(headers, name);
    return token === null ? [] : [{ token, clear: `${name}=; ${flagsOf(site, 0)}` }];
  });
}
