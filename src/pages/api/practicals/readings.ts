import type { APIRoute } from 'astro';
import { getSite, readJson } from '../../../accounts/index.ts';
import { languageAsked } from '../../../words/index.ts';
import { sayIn } from '../../../words/say.ts';
import { judgeSheetReadings } from '../../_desk/judge-sheet-readings.ts';
import { replyDone } from '../../_desk/refused.ts';

export const prerender = false;

/** Judges the readings of an open sheet: `{person, bench, work, unit, blade, readings}` in, verdicts with their sources out. */
export const POST: APIRoute = async ({ request, locals }) => {
  const say = sayIn(languageAsked(request.headers));
  const input = await readJson(request);
  return replyDone(await judgeSheetReadings(locals.viewer, input, await getSite(), say), request);
};
