import { z } from 'zod';

/** Building blocks of the content schemas here. Each message finishes the sentence "FIELD ...". */

export const sentence = (most: number) => {
  const must = `must be text of 1 to ${most} characters`;
  return z.string({ error: must }).trim().min(1, { error: must }).max(most, { error: must });
};

/** A short lower-case name, used in addresses and file names. */
export const slug = () => {
  const must = 'must be lower-case words joined by hyphens, at most 60 characters';
  return z
    .string({ error: must })
    .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, { error: must })
    .max(60, { error: must });
};

export const yesNo = () => z.boolean({ error: 'must be true or false' });

export function choice<const Words extends readonly [string, ...string[]]>(words: Words) {
  return z.enum(words, { error: `must be one of: ${words.join(', ')}` });
}

/** An object with just these fields: one we do not know is a typing slip until shown otherwise. */
export function group<Shape extends z.ZodRawShape>(shape: Shape) {
  return z.strictObject(shape, {
    error: (issue) =>
      issue.code === 'unrecognized_keys'
        ? `has no field named ${issue.keys.join(', ')}`
        : 'must be given, as a group of fields',
  });
}

/** The first id that stands twice in a list, if any. */
export const repeatedId = (entries: readonly { readonly id: string }[]): string | undefined => {
  const seen = new Set<string>();
  for (const { id } of entries) {
    if (seen.has(id)) return id;
    seen.add(id);
  }
  return undefined;
};
