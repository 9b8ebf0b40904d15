import type { APIRoute } from 'astro';
import { getSite, readJson, replyJson, replyRefusal } from '../../accounts/index.ts';
import { loadCourse } from '../../components/lesson/load-course.ts';
import { eraseAnswers, keepAnswers, readLearning } from '../../learning/index.ts';

export const prerender = false;

/** Lesson answers kept for the person signed in, or null for nobody. */
export const GET: APIRoute = async ({ locals }) =>
  replyJson(await readLearning(await getSite(), locals.viewer));

/** Keeps more of them: `{person, answers}` in; everything kept, from every device, out. */
export const POST: APIRoute = async ({ request, locals }) => {
  const bank = new Map((await loadCourse()).map(({ id, asks }) => [id, new Set(asks)]));
  const body = await readJson(request);
  const outcome = await keepAnswers(await getSite(), locals.viewer, body, bank);
  return outcome.ok ? replyJson(outcome.value) : replyRefusal(outcome.refusal);
};

/** Erases them all. */
export const DELETE: APIRoute = async ({ locals }) => {
  const outcome = await eraseAnswers(await getSite(), locals.viewer);
  return outcome.ok ? replyJson(outcome.value) : replyRefusal(outcome.refusal);
};
