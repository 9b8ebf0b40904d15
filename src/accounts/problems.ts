import type { Problem } from '../bench/index.ts';

/** Why an account request was refused. `status` is the HTTP status that fits. */
export type Refusal = Problem & { readonly status: 400 | 401 | 403 | 404 | 409 | 410 | 429 };

/** Either the value asked for or one clear sentence; bad input is an answer, not an exception. */
export type Outcome<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly refusal: Refusal };

export function grant<Value>(value: Value): Outcome<Value> {
  return { ok: true, value };
}

export function refuse(status: Refusal['status'], path: string, message: string): Outcome<never> {
  return { ok: false, refusal: { status, path, message } };
}
