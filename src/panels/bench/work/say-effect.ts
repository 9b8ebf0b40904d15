import { signal } from '@preact/signals';
import {
  type Bench,
  type Effect,
  INSTRUMENTS,
  type InstrumentId,
  MEASURING_POINTS,
} from '../../../bench/index.ts';
import { mmToInches } from '../../../geometry/index.ts';
import { nameInside, namePlace, nameTool } from './names.ts';
import { say, sayIf, sayLength, shownUnit } from './words.ts';

/** In a test the trainee reads the scale, and no figure is told. */
export const hidesReadings = signal(false);

export type Reading = Extract<Effect, { kind: 'reading' }>;

/** A fine instrument reads in thousandths of an inch, a rule in fractions. */
const FINE = 0.1;

export function sayShown(mm: number, instrument: InstrumentId): string {
  return shownUnit.value === 'inch' && INSTRUMENTS[instrument].resolution < FINE
    ? say('reading.thousandths', { inches: mmToInches(mm).toFixed(3) })
    : sayLength({ mm, digits: 2 });
}

/** `7.95 mm ± 0.05 mm`, `5/16 in ± 1/64 in`, `0.313 in ± 0.002 in`, or why it could not be read. */
export function sayReading(reading: Reading, bench: Bench): string {
  const { value, uncertainty, read } = reading;
  if (hidesReadings.value) {
    if (read === undefined) return say('reading.unread');
    return read.mm === null
      ? say('reading.read-nothing')
      : say('reading.as-read', { value: sayShown(read.mm, reading.with) });
  }
  if (value === null) return say(`reading.${whyNot(reading, bench)}`);
  return say('reading.value', {
    value: sayShown(value, reading.with),
    uncertainty: sayShown(uncertainty, reading.with),
  });
}

/** Why an instrument laid there showed nothing. */
function whyNot(reading: Reading, bench: Bench): 'nothing-there' | 'too-long' | 'no-leaf' {
  const length = MEASURING_POINTS[reading.at].take(bench);
  if (length === null) return 'nothing-there';
  return length > INSTRUMENTS[reading.with].longest ? 'too-long' : 'no-leaf';
}

/** What came of an action, in one sentence. */
export function sayEffect(effect: Effect, bench: Bench): string {
  switch (effect.kind) {
    case 'reading':
      if (hidesReadings.value && effect.read === undefined) {
        return say('effect.laid', {
          place: namePlace(effect.at),
          tool: nameInside(nameTool(effect.with)),
        });
      }
      return say('effect.reading', {
        place: namePlace(effect.at),
        reading: sayReading(effect, bench),
        tool: nameInside(nameTool(effect.with)),
      });
    case 'play':
      if (hidesReadings.value && effect.movement > 0) {
        return say('effect.play-felt', { part: say(`part.${effect.part}`) });
      }
      return effect.movement > 0
        ? say('effect.play', {
            part: say(`part.${effect.part}`),
            movement: { mm: effect.movement },
          })
        : say('effect.solid', { part: say(`part.${effect.part}`) });
    case 'refused':
      return sayIf(`refused.${effect.because}.${effect.part}`, say(`refused.${effect.because}`));
    case 'stopped':
      return sayIf(`stopped.${effect.by}.${effect.setting}`, say(`stopped.${effect.by}`));
    case 'turns':
      return say(`turns.${effect.to}`, { after: effect.after });
    // told by what came of it
    case 'fed':
      return '';
    case 'not-isolated':
      return say('effect.not-isolated');
    case 'while-turning':
      return say(effect.action === 'isolate' ? 'effect.cut-off' : 'effect.while-turning');
    default:
      // what only a form knows
      return sayIf(`effect.${(effect as { readonly kind: string }).kind}`, '');
  }
}
