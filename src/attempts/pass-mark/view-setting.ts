import { type SettledMark, settleMark } from '../../assessment/index.ts';
import { lastRatings, type MarkSetting, type Rated } from './read-setting.ts';

/** Rounds there can be: with more talk than this, the test is what needs changing. */
export const MOST_ROUNDS = 5;

/** What one trainer may see and do. Nobody sees a round of others before giving their own. */
export type MarkView = {
  /** rounds this trainer has given, 0 to begin with */
  readonly given: number;
  /** the round this trainer may give next; null while others are waited for */
  readonly next: number | null;
  /** ratings that may be shown: of rounds this trainer has given too */
  readonly shown: readonly Rated[];
  /** trainers who have rated at all, and how far the furthest has come */
  readonly judges: number;
  readonly furthest: number;
  /** worked out from what is shown; null under two trainers */
  readonly settled: SettledMark | null;
  /** a mark may be put in force: two have rated, nobody has gone further than this trainer, and it is not in force already */
  readonly mayAdopt: boolean;
};

/** The mark stands already, and nobody has rated since. */
const isInForce = ({ adopted, rated }: MarkSetting, mark: number): boolean =>
  adopted?.mark === mark && rated.every(({ at }) => at <= adopted.at);

export function viewMark(setting: MarkSetting, person: string): MarkView {
  const { lines, rated } = setting;
  const roundsOf = (who: string) =>
    Math.max(0, ...rated.filter((one) => one.person === who).map(({ round }) => round));
  const given = roundsOf(person);
  const shown = rated.filter(({ round }) => round <= given);
  const last = lastRatings(shown);
  const settled = settleMark(
    lines,
    last.map(({ ratings }) => ratings),
  );
  const furthest = Math.max(0, ...rated.map(({ round }) => round));
  const inRound = rated.filter(({ round }) => round === given).length;
  const mayGoOn = given === 0 || (inRound > 1 && given < MOST_ROUNDS);
  return {
    given,
    next: mayGoOn ? given + 1 : null,
    shown,
    judges: new Set(rated.map((one) => one.person)).size,
    furthest,
    settled,
    mayAdopt: settled !== null && given === furthest && !isInForce(setting, settled.mark),
  };
}
