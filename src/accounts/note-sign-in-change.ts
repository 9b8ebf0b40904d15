import { type BodyOf, newId } from '../records/index.ts';
import type { StoreWrite } from '../store/index.ts';

export type SignInChange = BodyOf<'sign-in.changed'>['what'];

/** Enters, in a write that is open already, that somebody changed how they themselves sign in. */
export const noteSignInChange = (
  { append }: Pick<StoreWrite, 'append'>,
  { person, org }: { readonly person: string; readonly org: string },
  what: SignInChange,
  now: Date,
) =>
  append({
    id: newId(),
    kind: 'sign-in.changed',
    version: 1,
    org,
    at: now.toISOString(),
    by: person,
    about: person,
    body: { what },
  });
