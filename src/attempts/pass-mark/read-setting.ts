import type { Site } from '../../accounts/index.ts';
import {
  type Blueprint,
  type PassMark,
  type RatingLine,
  type Ratings,
  ratesAll,
  ratingLines,
} from '../../assessment/index.ts';
import { sayDay } from '../../competence/index.ts';

/** What one trainer said in one round. */
export type Rated = {
  readonly event: string;
  readonly person: string;
  readonly round: number;
  readonly ratings: Ratings;
  /** ISO instant by the server's clock */
  readonly at: string;
};

export type Adopted = {
  readonly mark: number;
  readonly by: string;
  readonly at: string;
  /** how many trainers' ratings it rests on */
  readonly judges: number;
};

/** How far the setting of one pass mark has come, for the blueprint as it is now. */
export type MarkSetting = {
  readonly blueprint: Blueprint;
  readonly lines: readonly RatingLine[];
  /** in the order they were given; one for each trainer and round */
  readonly rated: readonly Rated[];
  /** the one in force now; null until there is one */
  readonly adopted: Adopted | null;
  /** every one there has been, oldest first */
  readonly history: readonly Adopted[];
  /** records that were changed after they were entered: left out of the reckoning, and said */
  readonly altered: number;
};

/**
 * Reads the setting of a pass mark from the log. Ratings of an earlier version of the blueprint, or of
 * parts it does not have, count for nothing: a changed test needs a mark of its own.
 */
export async function readMarkSetting(
  site: Site,
  org: string,
  blueprint: Blueprint,
): Promise<MarkSetting> {
  const stored = await site.store.events({
    org,
    kinds: ['pass-mark.rated', 'pass-mark.adopted'],
  });
  const lines = ratingLines(blueprint);
  const rated = new Map<string, Rated>();
  const history: Adopted[] = [];
  let altered = 0;
  for (const { event, broken } of stored) {
    const body = event?.body;
    if (body?.blueprint !== blueprint.id || body.blueprintVersion !== blueprint.version) continue;
    if (event === null || broken !== null) {
      altered += 1;
      continue;
    }
    const { by: person, received: at } = event;
    if (event.kind === 'pass-mark.adopted') {
      const { mark, ratings } = event.body;
      history.push({ mark, by: person, at, judges: ratings.length });
    } else if (ratesAll(lines, event.body.ratings)) {
      const { round, ratings } = event.body;
      const key = `${person} ${round}`;
      // what was said first in a round stands
      if (!rated.has(key)) rated.set(key, { event: event.id, person, round, ratings, at });
    }
  }
  const adopted = history.at(-1) ?? null;
  return { blueprint, lines, rated: [...rated.values()], adopted, history, altered };
}

/** What counts for each trainer: what they said last, trainers in the order of their first rating. */
export function lastRatings(rated: readonly Rated[]): readonly Rated[] {
  const last = new Map<string, Rated>();
  for (const one of rated) {
    const before = last.get(one.person);
    if (before === undefined || before.round < one.round) last.set(one.person, one);
  }
  return [...last.values()];
}

/**
 * The mark a form is graded against: the last one adopted here, or else what the blueprint itself says.
 * @param at ISO instant the form was handed in: a mark put in force later does not reach back to it
 */
export function markOf({ history, blueprint }: MarkSetting, at?: string): PassMark {
  const adopted = history.findLast((one) => at === undefined || one.at <= at);
  if (adopted === undefined) return blueprint.pass;
  return {
    mark: adopted.mark,
    method: 'modified-angoff',
    basis: `Modified Angoff: ${adopted.judges} trainers rated each part, and one put the mark in force on ${sayDay(adopted.at.slice(0, 10))}.`,
  };
}

/** The pass mark in force in an organisation, now or when a form was handed in. */
export const passMarkInForce = async (
  site: Site,
  org: string,
  blueprint: Blueprint,
  at?: string,
): Promise<PassMark> => markOf(await readMarkSetting(site, org, blueprint), at);
