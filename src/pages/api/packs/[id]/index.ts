import type { APIRoute } from 'astro';
import { can, replyJson } from '../../../../accounts/index.ts';
import { sayIn } from '../../../../words/say.ts';
import { refused, replyDone } from '../../../_desk/refused.ts';
import { KEPT_MINUTES, packJob } from '../../../_pack/jobs.ts';

export const prerender = false;

/** How far the making of a pack has come. */
export const GET: APIRoute = ({ locals: { viewer }, params, request }) => {
  const say = sayIn('en');
  if (viewer === null || !can(viewer, 'pack.make', { org: viewer.org })) {
    return replyDone(refused(viewer === null ? 401 : 403, '', say('pack.refused')), request);
  }
  const job = packJob(params['id'] ?? '', viewer);
  if (job === null) {
    return replyDone(refused(404, 'id', say('pack.gone', { minutes: KEPT_MINUTES })), request);
  }
  const { all, done, state } = job;
  return replyJson({ state, done, all });
};
