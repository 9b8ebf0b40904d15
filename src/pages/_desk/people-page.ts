/** People worked out for one page: what a workshop has in one go, and a large one page by page. */
const PEOPLE_A_PAGE = 500;

/** One page of some people, counted from 1. */
export type PeoplePage<One> = {
  readonly shown: readonly One[];
  readonly page: number;
  readonly pages: number;
};

/** @param asked the page as it stands in an address; anything that is no page is the first or the last */
export function pageOf<One>(
  people: readonly One[],
  asked: string | null,
  each: number = PEOPLE_A_PAGE,
): PeoplePage<One> {
  const pages = Math.max(1, Math.ceil(people.length / each));
  const wanted = Math.floor(Number(asked ?? 1));
  const page = Math.min(pages, Math.max(1, Number.isFinite(wanted) ? wanted : 1));
  return { shown: people.slice((page - 1) * each, page * each), page, pages };
}
