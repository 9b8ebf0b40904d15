import type { APIRoute } from 'astro';
import { getSite, readJson } from '../../../accounts/index.ts';
import { replyDone } from '../../_desk/refused.ts';
import { registerBench } from '../../_desk/register-bench.ts';

export const prerender = false;

/** Registers a bench: `{asset, title, work, limits, file}` in, `file` being a bench/1 file as JSON, YAML or text. */
export const POST: APIRoute = async ({ request, locals }) =>
  replyDone(await registerBench(locals.viewer, await readJson(request), await getSite()), request);
