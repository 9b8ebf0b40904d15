/** People, or things due, on one page: what a workshop has in one go, and a large one page by page. */
const LINES_A_PAGE = 500;

/** One page of a list, counted from 1. */
export type PeoplePage<One> = {
  readonly shown: readonly One[];
  readonly page: number;
  readonly pages: number;
};

/** @param asked the page as it stands in an address; anything that is no page is the first or the last */
export function pageOf<One>(
  list: readonly One[],
  asked: string | null,
  each: number = LINES_A_PAGE,
): PeoplePage<One> {
  const pages = Math.max(1, Math.ceil(list.length / each));
  const wanted = Math.floor(Number(asked ?? 1));
  const page = Math.min(pages, Math.max(1, Number.isFinite(wanted) ? wanted : 1));
  return { shown: list.slice((page - 1) * each, page * each), page, pages };
}
