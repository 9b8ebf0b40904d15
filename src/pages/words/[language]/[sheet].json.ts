import type { APIRoute, GetStaticPaths } from 'astro';
import { CATALOGUES } from '../../../words/catalogue/index.ts';
import { LANGUAGE_IDS } from '../../../words/index.ts';

/** One sheet of words in one language, for the panels: English is in them already. */
export const getStaticPaths = (() =>
  LANGUAGE_IDS.filter((language) => language !== 'en').flatMap((language) =>
    Object.entries(CATALOGUES[language]).map(([sheet, words]) => ({
      params: { language, sheet },
      props: { words },
    })),
  )) satisfies GetStaticPaths;

export const GET: APIRoute = ({ props }) => Response.json(props['words']);
