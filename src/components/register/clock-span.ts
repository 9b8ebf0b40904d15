import { type Language, timeIn } from '../../words/index.ts';

/** From one time of day to another, in UTC: `08:00–11:30 UTC`. */
export const clockSpan = (language: Language, from: string, to: string): string =>
  `${timeIn(language, from)}–${timeIn(language, to)} UTC`;
