import type { Bench } from '../../bench/index.ts';

/** Some fields of a bench, as deep as needed; a list is given whole. */
export type Amendment<Value> = Value extends readonly unknown[]
  ? Value
  : Value extends object
    ? {
        readonly [Key in keyof Value]?:
          | Amendment<NonNullable<Value[Key]>>
          | Extract<Value[Key], null>
          | undefined;
      }
    : Value;

type Plain = Readonly<Record<string, unknown>>;
const isGroup = (value: unknown): value is Plain =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function amendGroup(group: Plain, changes: Plain): Plain {
  const amended: Record<string, unknown> = { ...group };
  for (const [key, change] of Object.entries(changes)) {
    if (change === undefined) continue;
    const was = group[key];
    amended[key] = isGroup(change) && isGroup(was) ? amendGroup(was, change) : change;
  }
  return amended;
}

/** The bench with some fields changed. A part that is off stays off: what it would carry has no place. */
export function amend(bench: Bench, changes: Amendment<Bench>): Bench {
  const fitting = Object.entries(changes).filter(([key, change]) => {
    const isOff = (key === 'knife' || key === 'guard') && bench[key] === null;
    return !(isOff && isGroup(change));
  });
  return amendGroup(bench, Object.fromEntries(fitting)) as Bench;
}
