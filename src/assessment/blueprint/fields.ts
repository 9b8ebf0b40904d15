import { z } from 'zod';

/** Building blocks of the content schemas of a test. Each message finishes the sentence "FIELD ...". */

export const text = (most: number) => {
  const must = `must be text of 1 to ${most} characters`;
  return z.string({ error: must }).trim().min(1, { error: must }).max(most, { error: must });
};

export const slug = () => {
  const must = 'must be small letters and digits joined by hyphens, at most 60 characters';
  return z
    .string({ error: must })
    .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, { error: must })
    .max(60, { error: must });
};

/** A whole number, ends included. */
export const whole = (least: number, most: number) => {
  const must = `must be a whole number from ${least} to ${most}`;
  return z.int({ error: must }).min(least, { error: must }).max(most, { error: must });
};

export const yesNo = () => z.boolean({ error: 'must be true or false' });

export function choice<const Words extends readonly [string, ...string[]]>(words: Words) {
  return z.enum(words, { error: `must be one of: ${words.join(', ')}` });
}

/** A list that holds at least one of what `things` names. */
export const some = <Item extends z.ZodType>(item: Item, things: string) =>
  z
    .array(item, { error: `must be a list of ${things}` })
    .min(1, { error: `must hold at least one of ${things}` });

/** An object with just these fields: one we do not know is a typing slip until shown otherwise. */
export function group<Shape extends z.ZodRawShape>(shape: Shape) {
  return z.strictObject(shape, {
    error: (issue) =>
      issue.code === 'unrecognized_keys'
        ? `has no field named ${issue.keys.join(', ')}`
        : 'must be given, as a group of fields',
  });
}
