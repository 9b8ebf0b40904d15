import { replyJson } from '../../accounts/index.ts';

/** Why a request was not carried out: HTTP status, the field to blame, one sentence. */
export type Refused = {
  readonly ok: false;
  readonly status: number;
  readonly path: string;
  readonly message: string;
};
export type Done<Value> = { readonly ok: true; readonly value: Value } | Refused;

export const refused = (status: number, path: string, message: string): Refused => ({
  ok: false,
  status,
  path,
  message,
});

/** The reply of every interface here: the value, or `{error:{path,message}}` with the status. */
export function replyDone<Value>(done: Done<Value>, status = 200): Response {
  if (done.ok) return replyJson(done.value, status);
  return replyJson({ error: { path: done.path, message: done.message } }, done.status);
}
