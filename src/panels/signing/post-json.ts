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

/** Sends JSON to this site and reads the JSON that comes back. Never throws. */
export async function postJson<Value>(url: string, body: unknown): Promise<Reply<Value>> {
  let response: Response;
  try {
    response = await fetch(url, {
      method: 'POST',
      headers: {
        'content-type': 'application/json',
        accept: 'application/json',
        'x-language': pageLanguage(),
      },
      body: JSON.stringify(body),
      credentials: 'same-origin',
      signal: AbortSignal.timeout(LONGEST_WAIT),
    });
  } catch {
    return { ok: false, status: 0, path: '', message: say('not-reached') };
  }
  const read: unknown = await response.json().catch(() => null);
  if (response.ok) return { ok: true, value: read as Value };
  const problem = sentenceOf(read) ?? {
    path: '',
    message: say('could-not', { status: response.status }),
  };
  return { ok: false, status: response.status, ...problem };
}
