import type { APIRoute } from 'astro';
import { getSite } from '../../accounts/index.ts';
import { kitOf } from '../_desk/kit-of.ts';
import { replyDone } from '../_desk/refused.ts';

export const prerender = false;

/** What a trainer's device needs at the machine without a network, `kit/1`. */
export const GET: APIRoute = async ({ request, locals }) =>
  replyDone(await kitOf(locals.viewer, await getSite()), request);
