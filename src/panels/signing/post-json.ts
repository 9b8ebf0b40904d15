import english from '../../../content/messages/en/signing.json' with { type: 'json' };
import { pageLanguage, sayFrom } from '../../words/spoken.ts';

const say = sayFrom('signing', english);

/** What came back from the site, or why nothing did. Every refusal is one sentence for a person. */
export type Reply<Value> =
  | { readonly ok: true; readonly value: Value }
  | {
      readonly ok: false;
      /** HTTP status, or 0 when the site was not reached */
      readonly status: number;
      /** the field to blame, empty when none is */
      readonly path: string;
      readonly message: string;
    };

const isGroup = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null;

const sentenceOf = (body: unknown): { path: string; message: string } | null => {
  const problem = isGroup(body) && isGroup(body['error']) ? body['error'] : body;
  if (!isGroup(problem) || typeof problem['message'] !== 'string') return null;
  const path = problem['path'];
  return { path: typeof path === 'string' ? path : '', message: problem['message'] };
};

/** Longest wait for the site, ms: a tablet at the edge of the wireless net must not hang on it. */
const LONGEST_WAIT = 20_000;

type Ask = {
  readonly method: 'GET' | 'POST' | 'PUT';
  readonly type?: string;
  readonly body?: BodyInit;
  /** ms */
  readonly wait?: number;
};

/** Asks this site and reads the JSON that comes back. Never throws. */
export async function askSite<Value>(url: string, ask: Ask): Promise<Reply<Value>> {
  let response: Response;
  let read: unknown;
  try {
    response = await fetch(url, {
      method: ask.method,
      headers: {
        ...(ask.type === undefined ? {} : { 'content-type': ask.type }),
        accept: 'application/json',
        'x-language': pageLanguage(),
      },
      ...(ask.body === undefined ? {} : { body: ask.body }),
      credentials: 'same-origin',
      signal: AbortSignal.timeout(ask.wait ?? LONGEST_WAIT),
    });
    read = await response.json().catch(() => null);
  } catch {
    return { ok: false, status: 0, path: '', message: say('not-reached') };
  }
  if (response.ok) return { ok: true, value: read as Value };
  const problem = sentenceOf(read);
  // a refusal that does not speak our language comes from something on the way, not from the site
  const status = problem === null && response.status < 500 ? 0 : response.status;
  return {
    ok: false,
    status,
    ...(problem ?? { path: '', message: say('could-not', { status: response.status }) }),
  };
}

/** Sends JSON to this site and reads the JSON that comes back. Never throws. */
export const postJson = <Value>(url: string, body: unknown): Promise<Reply<Value>> =>
  askSite(url, { method: 'POST', type: 'application/json', body: JSON.stringify(body) });

/** @param wait longest, ms */
export const getJson = <Value>(url: string, wait = LONGEST_WAIT): Promise<Reply<Value>> =>
  askSite(url, { method: 'GET', wait });
