import type { Refusal } from '../accounts/index.ts';
import type { Put } from '../words/index.ts';
import type { Speaker } from '../words/say.ts';

/** A refusal in the language of the page; one that has no sentence in the catalogue as it is, in English. */
export function sayRefusal(
  { message, said }: Pick<Refusal, 'message' | 'said'>,
  say: Speaker,
): string {
  if (said === undefined) return message;
  const { key, count } = said;
  const put = nameField(said.put, say);
  const id = `refusals.${key}`;
  return count === undefined ? say.maybe(id, message, put) : say.count(id, count, put);
}

/** A field is named by its key; the sheet has what people call it. */
function nameField(put: Put | undefined, say: Speaker): Put | undefined {
  const field = put?.['field'];
  if (field === undefined) return put;
  return { ...put, field: say.maybe(`refusals.field.${field}`, String(field)) };
}
