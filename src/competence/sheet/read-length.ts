import { inchesToMm, type LengthUnit } from '../../geometry/index.ts';
import { inEnglish, type ProblemWord, type Told, tell } from './tell.ts';

/** A length as typed: in mm for the sums, and the unit it was meant in. */
export type TypedLength = { readonly mm: number; readonly unit: LengthUnit };

export type ReadLength =
  | { readonly ok: true; readonly length: TypedLength }
  /** `message` finishes the sentence "FIELD ..."; `told` is the whole of it with its `name` left open */
  | { readonly ok: false; readonly message: string; readonly told: Told };

const VULGAR: Readonly<Record<string, string>> = {
  '¼': '1/4',
  '½': '1/2',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

/** Divisions found on a shop rule. */
const DIVISIONS = [2, 4, 8, 16, 32, 64];

/** `{name} must be one number.` as what follows the name. */
const endOf = (told: Told): string =>
  inEnglish(told)
    .replace(/^\{name\} /, '')
    .replace(/\.$/, '');

const refuse = (...of: Parameters<typeof tell>): ReadLength => {
  const told = tell(...of);
  return { ok: false, message: endOf(told), told };
};

/** The text without its unit, and the unit it names, if any. */
function splitUnit(text: string): { figure: string; named: LengthUnit | null } {
  const found = /^(.*?)\s*(mm|in|inch|inches|"|″|'')\.?$/i.exec(text);
  if (found === null) return { figure: text, named: null };
  return {
    figure: (found[1] ?? '').trim(),
    named: found[2]?.toLowerCase() === 'mm' ? 'mm' : 'inch',
  };
}

/** Minus signs and dashes as typed on phones, vulgar fractions, stray spaces. */
const tidy = (text: string): string =>
  text
    .trim()
    .replace(/[¼½¾⅛⅜⅝⅞]/g, (sign) => ` ${VULGAR[sign] ?? sign}`)
    .replace(/[\u2212\u2012\u2013]/g, '-')
    .replace(/\s*[\u2044/]\s*/g, '/')
    .replace(/\s+/g, ' ')
    .trim();

function readFraction(figure: string): number | ProblemWord {
  const found = /^(-?)\s*(?:(\d+)(?:\s|-))?(\d+)\/(\d+)$/.exec(figure);
  if (found === null) return 'length.number';
  const [, sign, whole = '0', top, bottom] = found;
  const divisor = Number(bottom);
  if (!DIVISIONS.includes(divisor)) {
    return 'length.divisor';
  }
  if (whole !== '0' && Number(top) >= divisor) {
    return 'length.mixed';
  }
  const size = Number(whole) + Number(top) / divisor;
  return sign === '-' ? -size : size;
}

/**
 * A length as a trainer types it: `7.5`, `7,5`, `5/16`, `1 3/8`, `1-3/8`, `3½`, with or without a unit.
 * A unit typed with the figure wins over the one chosen beside the field. What could be meant in two
 * ways is refused, not guessed: `1,200` may be 1.2 or 1200.
 * @param chosen the unit chosen for the field
 */
export function readLength(text: string, chosen: LengthUnit): ReadLength {
  const { figure, named } = splitUnit(tidy(text));
  if (figure === '') return refuse('length.missing');
  const unit = named ?? chosen;
  if (figure.includes('/')) {
    if (unit === 'mm') return refuse('length.fraction-in-mm');
    const inches = readFraction(figure);
    if (typeof inches === 'string') return refuse(inches);
    return { ok: true, length: { mm: inchesToMm(inches), unit } };
  }
  if (/^-?[1-9]\d{0,2},\d{3}$/.test(figure)) {
    return refuse('length.comma', {
      one: figure.replace(',', ''),
      other: figure.replace(',', '.'),
    });
  }
  if (!/^-?(\d+([.,]\d*)?|[.,]\d+)$/.test(figure)) {
    return refuse('length.number');
  }
  const value = Number(figure.replace(',', '.'));
  return { ok: true, length: { mm: unit === 'inch' ? inchesToMm(value) : value, unit } };
}

/** `NAME must be from -5 to 100 mm.`, in the unit the person works in. */
export function tellRange(
  range: readonly [number, number],
  unit: LengthUnit,
  name: string = '{name}',
): Told {
  const shown = (mm: number) => (unit === 'mm' ? mm : Number((mm / 25.4).toFixed(2)));
  const put = { least: shown(range[0]), most: shown(range[1]), unit: unit === 'mm' ? 'mm' : 'in' };
  return tell('length.range', { name, ...put });
}

/** `must be from -5 to 100 mm`, in the unit the person works in. */
export const rangeMessage = (range: readonly [number, number], unit: LengthUnit): string =>
  endOf(tellRange(range, unit));
