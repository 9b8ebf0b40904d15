import type { APIRoute } from 'astro';
import { getSite, readJson } from '../../../accounts/index.ts';
import { judgeSheetReadings } from '../../_desk/judge-sheet-readings.ts';
import { replyDone } from '../../_desk/refused.ts';

export const prerender = false;

/** Judges the readings of an open sheet: `{person, bench, work, unit, blade, readings}` in, verdicts with their sources out. */
export const POST: APIRoute = async ({ request, locals }) =>
  replyDone(
    await judgeSheetReadings(locals.viewer, await readJson(request), await getSite()),
    request,
  );
