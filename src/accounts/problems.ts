import type { z } from 'zod';
import english from '../../content/messages/en/refusals.json' with { type: 'json' };
import { describeProblem, type Problem } from '../bench/index.ts';
import { countedKey, fillPlaces, type Put } from '../words/index.ts';
import { ruleOf } from './field-rules.ts';

/** Which sentence of the sheet `refusals` a refusal is, so that a page can say it in its own language. */
export type SaidAs = {
  readonly key: string;
  readonly put?: Put;
  /** for a sentence that counts: its key without the ending */
  readonly count?: number;
};

/** Why an account request was refused. `status` is the HTTP status that fits. */
export type Refusal = Problem & {
  readonly status: 400 | 401 | 403 | 404 | 409 | 410 | 429;
  readonly said?: SaidAs;
};

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

/** A refusal whose sentence is in the catalogue: in English here, in the reader's language on a page. */
export function refuseAs(status: Refusal['status'], path: string, said: SaidAs): Outcome<never> {
  const sheet: Readonly<Record<string, string>> = english;
  const { key, put, count } = said;
  const own = count === undefined ? key : countedKey(sheet, key, count, 'en');
  const places = count === undefined ? put : { count, ...put };
  const message = fillPlaces(sheet[own] ?? own, places);
  return { ok: false, refusal: { status, path, message, said } };
}

/** The first field of a form that breaks its rule. `whole` names the form, for when no field is to blame. */
export function refuseForm(error: z.ZodError, whole: string): Outcome<never> {
  const { path, message } = describeProblem(error, whole);
  const rule = ruleOf(error.issues[0]?.message ?? '');
  if (path === '' || rule === undefined) return refuse(400, path, message);
  return refuseAs(400, path, { key: rule.key, put: { ...rule.put, field: path } });
}
