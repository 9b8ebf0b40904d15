import { type Effect, INSTRUMENTS, MEASURING_POINTS } from '../../../bench/index.ts';
import { say, sayIf } from './words.ts';

export type Reading = Extract<Effect, { kind: 'reading' }>;

export const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** `7.95 mm ± 0.05 mm`, or `5/16 in ± 1/64 in` */
export function sayReading({ value, uncertainty }: Reading): string {
  return value === null
    ? say('reading.none')
    : say('reading.value', {
        value: { mm: value, digits: 2 },

        uncertainty: { mm: uncertainty, digits: 2 },
      });
}

/** What came of an action, in one sentence. */
export function sayEffect(effect: Effect): string {
  switch (effect.kind) {
    case 'reading':
      return say('effect.reading', {
        place: MEASURING_POINTS[effect.at].title,
        reading: sayReading(effect),
        tool: lowerFirst(INSTRUMENTS[effect.with].title),
      });
    case 'play':
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
    case 'not-isolated':
      return say('effect.not-isolated');
  }
}
