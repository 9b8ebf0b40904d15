import type { Interval, Showing } from '../../grading/index.ts';
import type { Speaker } from '../../words/say.ts';

/** A small sample stays quiet, and says from how many it would speak. */
export const sayQuiet = ({ least, have }: Showing, say: Speaker, of?: string): string =>
  say('figures-about-tests.quiet', {
    least,
    have,
    of: of ?? say('figures-about-tests.quiet.attempts'),
  });

/** A share as whole per cent. */
export const sayPercent = (share: number): string => `${Math.round(100 * share)} %`;

/** A figure between -1 and 1, with two decimals and a true minus. */
export const sayFigure = (value: number, say: Speaker): string =>
  say.figures(value.toFixed(2)).replace('-', '−');

/** What a reliability of this size is good for: common practice, no source. */
export function sayReliability(alpha: number, say: Speaker): string {
  if (alpha >= 0.8) return say('figures-about-tests.alpha.enough');
  return say(alpha >= 0.6 ? 'figures-about-tests.alpha.some' : 'figures-about-tests.alpha.little');
}

/** What a correlation with the rest tells. The ends are common practice, no source. */
export function sayDiscrimination(value: number, say: Speaker): string {
  if (value < 0) return say('figures-about-tests.disc.minus');
  if (value < 0.15) return say('figures-about-tests.disc.little');
  return say(value < 0.3 ? 'figures-about-tests.disc.some' : 'figures-about-tests.disc.well');
}

/** A part of a test by its id, such as react-2. */
export function sayPart(id: string, say: Speaker): string {
  const [kind = id, number] = id.split(/-(?=\d+$)/);
  const title = say.maybe(`figures-about-tests.part.${kind}`, id);
  return number === undefined ? title : say('figures-about-tests.part.numbered', { title, number });
}

/** What was thought of a fault, held against what was counted. */
export function sayThought(thought: number, { low, high }: Interval, say: Speaker): string {
  const share = sayPercent(thought);
  if (thought < low) return say('figures-about-tests.thought.easier', { share });
  return say(
    thought > high ? 'figures-about-tests.thought.harder' : 'figures-about-tests.thought',
    { share },
  );
}
