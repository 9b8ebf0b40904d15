import { type Flaw, problem } from './flaw.ts';
import { FIGURE } from './lesson-source.ts';

const NUMBER_WORD =
  'one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|(?:thir|four|fif|six|seven|eigh|nine)teen|' +
  'twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred|thousand|dozen|half an?|' +
  '(?:halves|quarters?|thirds?|eighths?|tenths?|hundredths?|thousandths?) of an?';

/** Units that follow figures and number words alike. */
const UNIT_WORD =
  'millimet(?:re|er)s?|centimet(?:re|er)s?|kilomet(?:re|er)s?|met(?:re|er)s?|inch(?:es)?|' +
  'seconds?(?!-)|minutes?|hours?|years?|per ?cent|percent|degrees?|kilograms?|kilos?|grams?|newtons?|' +
  'joules?|watts?|kilowatts?|volts?|decibels?|lux|revolutions|turns (?:a|per) (?:minute|second)';

/** Short units, which only a figure in digits carries. */
const UNIT_SIGN =
  'mm|cm|m\\/s|m\\/min|m|km|s|ms|min|h|kg|g|N|N ?m|J|kJ|W|kW|V|dB(?:\\([AC]\\))?|lx|rpm|ft|feet|foot|days?|weeks?|months?|mg\\/m3|mg\\/m³';

// "in 1974 it was" holds no inches: a year before the word, or a small word after it
const INCHES = 'in\\b(?=[\\s,.;:)]|$)(?!\\s+[a-z])';

/** A number typed with a unit, in digits or spelled out: it belongs in a reference, not in a text. */
const TYPED = new RegExp(
  [
    `(?<![\\d/.-])\\d[\\d.,/]*(?:\\s*-\\s*|\\s+)?(?:(?:${UNIT_SIGN}|${UNIT_WORD})\\b|${INCHES}|["″'′](?!\\w)|[%‰°µ])`,
    `\\b(?:${NUMBER_WORD})[\\s-]+(?:${UNIT_WORD})\\b`,
  ].join('|'),
  'gi',
);
const TWICE = new RegExp(`${FIGURE}\\s*(?:(?:${UNIT_SIGN}|${UNIT_WORD})\\b|[%°])`, 'gi');

export type TypedFigure = { readonly text: string; readonly at: number };

/** Every number with a unit in a text. `{...}` is no text: a figure is filled in there. */
export function findTypedFigures(text: string): readonly TypedFigure[] {
  const blank = text.replace(/\{[^{}]*\}/g, (inner) => FIGURE.padEnd(inner.length, FIGURE));
  return (
    [...blank.matchAll(TYPED)]
      // "the 1990s", and "EN 1870 m" or "WIS 16 h", where the number belongs to a name
      .filter(
        (match) =>
          !/^\d{4}s$/.test(match[0]) && !/\b[A-Z]{2,}[ -]?$/.test(blank.slice(0, match.index)),
      )
      .map((match) => ({ text: match[0], at: match.index }))
  );
}

export function checkTypedFigures(
  { file, text }: { readonly file: string; readonly text: string },
  lineAt: (index: number) => number,
): readonly Flaw[] {
  const typed = findTypedFigures(text).map(({ text: found, at }) =>
    problem(
      file,
      lineAt(at),
      `"${found.replace(/\s+/g, ' ')}" is a typed figure; take it from the bench, a limit or a fact, or say it without a number.`,
    ),
  );
  const twice = [...text.matchAll(TWICE)].map((match) =>
    problem(
      file,
      lineAt(match.index),
      'A figure brings its own unit; leave the unit after it out.',
    ),
  );
  return [...typed, ...twice];
}
