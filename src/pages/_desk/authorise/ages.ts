import type { Site } from '../../../accounts/index.ts';
import { ageRuleFor } from '../../../competence/index.ts';
import { loadAges } from '../../../store/content-files.ts';

/** The question on age that goes with a limit set, and the answers it may have. */
export type AgeQuestion = {
  /** id of the rule, kept with the answer */
  readonly rule: string;
  /** years; null where no age is known and local law has to be asked */
  readonly years: number | null;
  /** what the rule asks and allows, sentences in English */
  readonly ask: readonly string[];
  /** document, clause and how it was seen; null where no age is known */
  readonly source: string | null;
  readonly answers: readonly ('old-enough' | 'young-under-supervision')[];
};

/**
 * The rule on age of a limit set, as a question. Nobody younger is offered supervision where the rule knows an
 * age and no exception from it.
 * @throws Error when the content has no rule for this set and none for all others
 */
export function ageQuestionOf(
  limitSet: string,
  { contentDir }: Pick<Site, 'contentDir'>,
): AgeQuestion {
  const rule = ageRuleFor(loadAges(contentDir).values(), limitSet);
  if (rule === null)
    throw new Error(`content/ages has no rule for ${limitSet} and none for all others.`);
  const { id, least, younger, ask, source } = rule;
  const mayBeYoung = least === null || younger !== null;
  return {
    rule: id,
    years: least,
    ask: younger === null ? [ask] : [ask, younger.only],
    source:
      source === null
        ? null
        : [source.document, source.clause, source.year, `seen: ${source.seen}`]
            .filter((part) => part !== undefined)
            .join(', '),
    answers: mayBeYoung ? ['old-enough', 'young-under-supervision'] : ['old-enough'],
  };
}
