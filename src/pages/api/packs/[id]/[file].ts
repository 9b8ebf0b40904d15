import type { APIRoute } from 'astro';
import { can } from '../../../../accounts/index.ts';
import { sayIn } from '../../../../words/say.ts';
import { refused, replyDone } from '../../../_desk/refused.ts';
import { KEPT_MINUTES, packJob } from '../../../_pack/jobs.ts';
import { isPackFile, replyFile } from '../../../_pack/reply-file.ts';

export const prerender = false;

/** One of the two files of a pack, for whoever had it made. */
export const GET: APIRoute = ({ locals: { viewer }, params, request }) => {
  const say = sayIn('en');
  if (viewer === null || !can(viewer, 'pack.make', { org: viewer.org })) {
    return replyDone(refused(viewer === null ? 401 : 403, '', say('pack.refused')), request);
  }
  const pack = packJob(params['id'] ?? '', viewer)?.pack ?? null;
  const { file } = params;
  if (pack === null || !isPackFile(file)) {
    return replyDone(refused(404, 'id', say('pack.gone', { minutes: KEPT_MINUTES })), request);
  }
  return replyFile(file, pack);
};
