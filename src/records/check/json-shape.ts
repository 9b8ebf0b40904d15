/*
 * Reading a value of unknown shape without a schema library, for the check that runs in a page.
 * What is read here is trusted only once a signature or a hash over the whole of it has been
 * checked, and everything under that was checked by its schema before it was signed.
 */

export type JsonObject = { readonly [name: string]: unknown };

/** A value that is not what the file's form asks for, with where it is. */
export class ShapeError extends Error {
  override readonly name = 'ShapeError';
}

const isGroup = (value: unknown): value is JsonObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

type Step = string | number;
const spell = (path: readonly Step[]): string =>
  path.reduce<string>(
    (text, step) =>
      typeof step === 'number' ? `${text}[${step}]` : `${text}${text && '.'}${step}`,
    '',
  );

/** What lies at a path, or undefined. Own members only. */
export function valueAt(value: unknown, ...path: readonly Step[]): unknown {
  return path.reduce<unknown>((inner, step) => {
    if (typeof step === 'number') return Array.isArray(inner) ? inner[step] : undefined;
    return isGroup(inner) && Object.hasOwn(inner, step) ? inner[step] : undefined;
  }, value);
}

export function groupAt(value: unknown, ...path: readonly Step[]): JsonObject {
  const found = valueAt(value, ...path);
  if (!isGroup(found))
    throw new ShapeError(`${spell(path) || 'The file'} must be a group of fields`);
  return found;
}

export function listAt(value: unknown, ...path: readonly Step[]): readonly unknown[] {
  const found = valueAt(value, ...path);
  if (!Array.isArray(found)) throw new ShapeError(`${spell(path)} must be a list`);
  return found;
}

export function textAt(value: unknown, ...path: readonly Step[]): string {
  const found = valueAt(value, ...path);
  if (typeof found !== 'string') throw new ShapeError(`${spell(path)} must be text`);
  return found;
}

/** Whole number from 0 up. */
export function countAt(value: unknown, ...path: readonly Step[]): number {
  const found = valueAt(value, ...path);
  if (typeof found !== 'number' || !Number.isSafeInteger(found) || found < 0) {
    throw new ShapeError(`${spell(path)} must be a whole number from 0`);
  }
  return found;
}

/** Refuses a group with a field missing or one too many. */
export function requireFields(group: JsonObject, where: string, names: readonly string[]): void {
  const missing = names.find((name) => !Object.hasOwn(group, name));
  if (missing !== undefined) throw new ShapeError(`${where} must have the field ${missing}`);
  const extra = Object.keys(group).find((name) => !names.includes(name));
  if (extra !== undefined) throw new ShapeError(`${where} has no field named ${extra}`);
}
