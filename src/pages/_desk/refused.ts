import { type Refusal, replyJson } from '../../accounts/index.ts';
import { sayRefusal } from '../../components/say-refusal.ts';
import type { WordId } from '../../words/catalogue/index.ts';
import { languageAsked, type Put } from '../../words/index.ts';
import { type Speaker, sayIn } from '../../words/say.ts';

/** A sentence of the sheet `desk`, or of the sheets of the machines and the practice log. */
export type DeskWord = Extract<
  WordId,
  `desk.${string}` | `machine.${string}` | `practice.${string}`
>;
type Told = { readonly key: DeskWord; readonly put: Put };

/** Why a request was not carried out: HTTP status, the field to blame, one sentence. */
export type Refused = {
  readonly ok: false;
  readonly status: number;
  readonly path: string;
  /** in English */
  readonly message: string;
  /** the same for another language, where the sheet has it */
  readonly told?: Told;
  /** the same for a refusal that comes from the accounts */
  readonly said?: NonNullable<Refusal['said']>;
};
export type Done<Value> = { readonly ok: true; readonly value: Value } | Refused;

/** A refusal in English only: what no person meets on a form. */
export const refused = (status: number, path: string, message: string): Refused => ({
  ok: false,
  status,
  path,
  message,
});

/** A refusal of the sheet `desk`, to be said in the language of whoever asked. */
export const refusedFor = (
  status: number,
  path: string,
  key: DeskWord,
  put: Put = {},
): Refused => ({
  ...refused(status, path, sayIn('en')(key, put)),
  told: { key, put },
});

/** Why, in the language of the page. */
export const sayRefused = (refused: Refused, say: Speaker): string =>
  refused.told === undefined ? sayRefusal(refused, say) : say(refused.told.key, refused.told.put);

/** The reply of every interface here: the value, or `{error:{path,message}}` with the status. */
export function replyDone<Value>(done: Done<Value>, { headers }: Request): Response {
  if (done.ok) return replyJson(done.value, 200);
  const message = sayRefused(done, sayIn(languageAsked(headers)));
  return replyJson({ error: { path: done.path, message } }, done.status);
}
