import type { APIRoute, GetStaticPaths } from 'astro';
import { searchEntries } from '../../components/search/search-entries.ts';
import { buildIndex } from '../../panels/search/index.ts';
import { LANGUAGE_IDS } from '../../words/index.ts';

/** What can be searched in one language, made with the pages: nothing in it belongs to a person. */
export const getStaticPaths = (() =>
  LANGUAGE_IDS.map((language) => ({
    params: { language },
    props: { language },
  }))) satisfies GetStaticPaths;

export const GET: APIRoute = async ({ props }) => {
  const { entries, names } = await searchEntries(props['language']);
  return Response.json(buildIndex(entries, names, props['language']));
};
