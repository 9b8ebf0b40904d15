import type { Refusal } from './problems.ts';
import { parseStrictJson } from './strict-json.ts';
import type { Role } from './viewer.ts';

/** The text fields of a posted form; a body that is no form reads as an empty one. Files are left out. */
export async function readForm(request: Request): Promise<Readonly<Record<string, string>>> {
  try {
    const fields: Record<string, string> = {};
    for (const [name, value] of await request.formData()) {
      if (typeof value === 'string') fields[name] = value;
    }
    return fields;
  } catch {
    return {};
  }
}

/** The JSON of a request, or undefined when it is none we take: a schema then says what is missing. */
export async function readJson(request: Request): Promise<unknown> {
  try {
    return parseStrictJson(new Uint8Array(await request.arrayBuffer()));
  } catch {
    return undefined;
  }
}

export function replyJson(value: unknown, status = 200): Response {
  return new Response(JSON.stringify(value), {
    status,
    headers: { 'content-type': 'application/json; charset=utf-8', 'cache-control': 'no-store' },
  });
}

/** A refusal in the one shape every interface here uses: `{error:{path,message}}`. */
export function replyRefusal({ status, path, message }: Refusal): Response {
  return replyJson({ error: { path, message } }, status);
}

/** Sends the browser to a page of this site after a form was taken (303, so reloading posts nothing). */
export function seeOther(path: string, cookies: readonly string[] = []): Response {
  const headers = new Headers({ location: path, 'cache-control': 'no-store' });
  for (const cookie of cookies) headers.append('set-cookie', cookie);
  return new Response(null, { status: 303, headers });
}

/** A path of this site given by a stranger, or null: never another site, never another scheme. */
export function ownPath(text: string | null | undefined): string | null {
  if (text == null || !text.startsWith('/')) return null;
  const base = 'http://own.invalid';
  const url = URL.canParse(text, base) ? new URL(text, base) : null;
  return url?.origin === base ? `${url.pathname}${url.search}` : null;
}

/**
 * The network address of the browser. Behind a proxy on this machine (SITE_URL is set, the connection comes
 * from here) it is the last one in X-Forwarded-For, the one the proxy itself has seen.
 */
export function browserAddress(
  request: Request,
  connectedFrom: string,
  siteUrl: string | undefined = process.env['SITE_URL'],
): string {
  const isLocal = /^(127\.|::1$|::ffff:127\.)/.test(connectedFrom);
  if (!siteUrl || !isLocal) return connectedFrom;
  const forwarded = request.headers.get('x-forwarded-for')?.split(',').at(-1)?.trim();
  return forwarded || connectedFrom;
}

/** The first page each role wants to see. */
export function homeOf(role: Role): string {
  return { trainee: '/my-book', trainer: '/board', employer: '/who-may' }[role];
}
