import { z } from 'zod';

/**
 * Building blocks of every schema here. Each message finishes the sentence "FIELD ...", so that a
 * person is told the field and what it may be: "blade.diameter must be 50 to 2000 mm".
 */

const plain = (value: number): string => String(value);

/** A number from `min` to `max`, ends included, in `unit`. */
export function quantity(min: number, max: number, unit: string) {
  const must = `must be a number from ${plain(min)} to ${plain(max)}${unit ? ` ${unit}` : ''}`;
  return z.number({ error: must }).min(min, { error: must }).max(max, { error: must });
}

/** A whole number from `min` to `max`, ends included. */
export function count(min: number, max: number) {
  const must = `must be a whole number from ${min} to ${max}`;
  return z
    .number({ error: must })
    .int({ error: must })
    .min(min, { error: must })
    .max(max, { error: must });
}

export const length = (min: number, max: number) => quantity(min, max, 'mm');
export const angle = (min: number, max: number) => quantity(min, max, 'degrees');

/** One of a few words. */
export function oneOf<const Words extends readonly [string, ...string[]]>(...words: Words) {
  return z.enum(words, { error: `must be one of: ${words.join(', ')}` });
}

export const yesNo = () => z.boolean({ error: 'must be true or false' });

/** A short free word or phrase, for what a person is seen to wear or a stock's kind. */
export const word = () => {
  const must = 'must be text of 1 to 60 characters';
  return z.string({ error: must }).min(1, { error: must }).max(60, { error: must });
};

/** An object with just these fields: a field we do not know is a typing slip until shown otherwise. */
export function part<Shape extends z.ZodRawShape>(shape: Shape) {
  return z.strictObject(shape, {
    error: (issue) =>
      issue.code === 'unrecognized_keys'
        ? `has no field named ${issue.keys.join(', ')}`
        : 'must be given, as a group of fields',
  });
}
