import type { z } from 'zod';
import type { Envelope } from './envelope.ts';

/** One version of a kind: a name that says what changed, and how to bring older bodies up to it. */
export type KindVersion = {
  readonly name: string;
  /** turns the body of the version before into this one; the first version has none before it */
  readonly migrate?: (older: unknown) => unknown;
};

/** Whether the fields around the body agree with it: the first disagreement, or null. */
export type Agreement<Body> = (
  event: Pick<Envelope, 'id' | 'org' | 'by' | 'about'> & { readonly body: Body },
) => { readonly path: readonly string[]; readonly message: string } | null;

export type EventKind<Name extends string = string, Body extends z.ZodType = z.ZodType> = {
  readonly kind: Name;
  /** oldest first; the last is the one written today, and its number is the length of the list */
  readonly versions: readonly [KindVersion, ...KindVersion[]];
  readonly body: Body;
  /** the first disagreement between body and envelope, or null */
  readonly agrees: Agreement<z.output<Body>>;
};

export const defineKind = <const Name extends string, Body extends z.ZodType>(
  kind: EventKind<Name, Body>,
): EventKind<Name, Body> => kind;

export const currentVersion = (kind: Pick<EventKind, 'versions'>): number => kind.versions.length;

/**
 * The body as the current version has it.
 * @param version of the body given, from 1 to the current one
 */
export function migrateBody(
  kind: Pick<EventKind, 'versions'>,
  version: number,
  body: unknown,
): unknown {
  return kind.versions
    .slice(version)
    .reduce<unknown>(
      (older, step) => (step.migrate === undefined ? older : step.migrate(older)),
      body,
    );
}
