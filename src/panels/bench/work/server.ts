import type { Answer, Outcome, Server, Started, Verdict } from './protocol.ts';
import { say } from './words.ts';

/** ms after which nobody is going to answer */
const PATIENCE = 20_000;

type Fetch = typeof fetch;

/** The server's own sentence, when it gave one; it is shown as it is. */
function sentenceOf(body: unknown): { readonly message: string; readonly path?: string } | null {
  const error = (body as { readonly error?: unknown } | null)?.error;
  if (typeof error !== 'object' || error === null || !('message' in error)) return null;
  const { message } = error;
  if (typeof message !== 'string') return null;
  return 'path' in error && typeof error.path === 'string'
    ? { message, path: error.path }
    : { message };
}

export async function post<T>(ask: Fetch, path: string, body: object): Promise<Answer<T>> {
  let reply: Response;
  try {
    reply = await ask(path, {
      method: 'POST',
      headers: { 'content-type': 'application/json', accept: 'application/json' },
      body: JSON.stringify(body),
      signal: AbortSignal.timeout(PATIENCE),
    });
  } catch {
    return { ok: false, kind: 'offline', message: say('server.offline') };
  }
  const read: unknown = await reply.json().catch(() => null);
  if (reply.ok && typeof read === 'object' && read !== null) {
    return { ok: true, value: read as T };
  }
  const isBroken = reply.status >= 500 || reply.ok;
  return {
    ok: false,
    kind: isBroken ? 'offline' : 'refused',
    ...(sentenceOf(read) ?? { message: say('server.unread', { status: reply.status }) }),
  };
}

export function connect(ask: Fetch): Server {
  return {
    start: (task) => post<Started>(ask, '/api/attempts', { task }),
    verdict: (token, actions) => post<Verdict>(ask, '/api/attempts/verdict', { token, actions }),
    handIn: (token, actions, claims, said) =>
      post<Outcome>(ask, '/api/attempts/submit', { token, actions, claims, said }),
  };
}
