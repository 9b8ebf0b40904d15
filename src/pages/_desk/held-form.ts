import {
  CUTS,
  type Field,
  HELD_FIELDS,
  HELD_KINDS,
  type Held,
  MOST_HELD,
  type TypedHeld,
  type TypedRow,
} from '../../components/register/held-fields.ts';
import type { FormFields } from './form-fields.ts';
import { type DeskWord, type Done, refusedFor } from './refused.ts';

/** The choice is filled in always, so it does not make a row. */
const isEmpty = (row: TypedRow): boolean =>
  Object.entries(row).every(([name, value]) => name === 'cut' || value.trim() === '');

/** The rows of a posted form as typed, the empty ones left out. */
export function readHeldForm({ all }: Pick<FormFields, 'all'>): TypedHeld {
  const rowsOf = (kind: keyof TypedHeld): TypedRow[] => {
    const columns = HELD_FIELDS[kind].map(({ name }) => all(`${kind}-${name}`));
    const length = Math.min(MOST_HELD[kind] + 10, Math.max(...columns.map((one) => one.length)));
    return Array.from({ length }, (_, i) =>
      Object.fromEntries(
        HELD_FIELDS[kind].map(({ name }, k) => [name, String(columns[k]?.[i] ?? '')]),
      ),
    ).filter((row) => !isEmpty(row));
  };
  return { blades: rowsOf('blades'), knives: rowsOf('knives'), documents: rowsOf('documents') };
}

/** A figure typed with a point or a comma. */
const numberOf = (typed: string): number =>
  /^\d+([.,]\d+)?$/.test(typed.trim()) ? Number(typed.trim().replace(',', '.')) : Number.NaN;

/** The first field of a row that is not in its range, or null. */
function slipIn(kind: keyof TypedHeld, row: TypedRow): Field | null {
  return (
    HELD_FIELDS[kind].find(({ name, kind: type, range: [least, most] }) => {
      const typed = (row[name] ?? '').trim();
      if (type === 'choice') return !CUTS.some((cut) => cut === typed);
      if (type === 'text') return typed.length < least || typed.length > most;
      const value = numberOf(typed);
      return !(value >= least && value <= most && (name !== 'teeth' || Number.isInteger(value)));
    }) ?? null
  );
}

/** What is held, read, or one sentence with the kind, the row and the field to mend. */
export function readHeld(typed: TypedHeld): Done<Held> {
  for (const kind of HELD_KINDS) {
    if (typed[kind].length > MOST_HELD[kind]) {
      return refusedFor(400, kind, `machine.no.${kind}.many`, { most: MOST_HELD[kind] });
    }
    for (const [i, row] of typed[kind].entries()) {
      const slip = slipIn(kind, row);
      if (slip !== null) {
        const key = `machine.no.${kind}.${slip.name}` as DeskWord;
        const [least, most] = slip.range;
        return refusedFor(400, kind, key, { row: i + 1, least, most });
      }
    }
  }
  const number = (row: TypedRow, name: string) => numberOf(row[name] ?? '');
  const words = (row: TypedRow, name: string) => (row[name] ?? '').trim();
  const wide = typed.blades.findIndex((row) => number(row, 'plate') >= number(row, 'kerf'));
  if (wide >= 0) return refusedFor(400, 'blades', 'machine.no.blades.wide', { row: wide + 1 });
  const turned = typed.knives.findIndex((row) => number(row, 'least') > number(row, 'most'));
  if (turned >= 0) return refusedFor(400, 'knives', 'machine.no.knives.order', { row: turned + 1 });
  return {
    ok: true,
    value: {
      blades: typed.blades.map((row) => ({
        mark: words(row, 'mark'),
        diameter: number(row, 'diameter'),
        kerf: number(row, 'kerf'),
        plate: number(row, 'plate'),
        teeth: number(row, 'teeth'),
        cut: words(row, 'cut') as (typeof CUTS)[number],
      })),
      knives: typed.knives.map((row) => ({
        mark: words(row, 'mark'),
        thickness: number(row, 'thickness'),
        fits: [number(row, 'least'), number(row, 'most')],
      })),
      documents: typed.documents.map((row) => ({
        title: words(row, 'title'),
        where: words(row, 'where'),
      })),
    },
  };
}
