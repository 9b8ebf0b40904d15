import type { Part } from '../measures/index.ts';

/**
 * A length judged by eye, mm: `about`, never negative, to the nearest `to`. `about: 0` means less
 * than half of `to`.
 */
export type ByEye = { readonly about: number; readonly to: number };

/** What stands in a sentence: a length by eye, a count, or a word as it is written on the bench. */
export type Seen = ByEye | number | string;

/**
 * One thing to be seen. The key names a sentence in content/messages; the values go into it.
 * It tells a state, never a verdict.
 */
export type Observation = {
  readonly part: Part;
  readonly key: string;
  readonly values: Readonly<Record<string, Seen>>;
};

export const see = (
  part: Part,
  key: string,
  values: Readonly<Record<string, Seen>> = {},
): Observation => ({ part, key, values });

/** A length as the eye judges it, to the nearest `to` mm; its sign is for the sentence to tell. */
export const byEye = (length: number, to: number): ByEye => ({
  about: Math.round(Math.abs(length) / to) * to,
  to,
});

/** Which side of level a length is seen on: `level` when the eye cannot tell. */
export function sideOf<Over extends string, Under extends string>(
  length: number,
  to: number,
  [over, under]: readonly [Over, Under],
): Over | Under | 'level' {
  if (byEye(length, to).about === 0) return 'level';
  return length > 0 ? over : under;
}
