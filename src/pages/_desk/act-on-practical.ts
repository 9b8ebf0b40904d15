import type { Site, Viewer } from '../../accounts/index.ts';
import { answerPractical } from './answer-practical.ts';
import { type Done, refused } from './refused.ts';
import { settleAppeal } from './settle-appeal.ts';
import { withdrawPractical } from './withdraw-practical.ts';

type Form = Readonly<Record<string, string>>;
type Act = (viewer: Viewer, signoff: string, form: Form, site: Site) => Promise<Done<unknown>>;

/** What the forms of a signed practical ask for, by their field `do`. */
const ACTS = {
  answer: (viewer, signoff, { id, answer, words }, site) =>
    answerPractical(viewer, signoff, { id, answer, words }, site),
  settle: (viewer, signoff, { id, appeal, outcome, reason }, site) =>
    settleAppeal(viewer, signoff, { id, appeal, outcome, reason }, site),
  withdraw: (viewer, signoff, { id, reason }, site) =>
    withdrawPractical(viewer, signoff, { id, reason }, site),
} as const satisfies Record<string, Act>;

export type PracticalAct = keyof typeof ACTS;

export const isPracticalAct = (text: string | null | undefined): text is PracticalAct =>
  text != null && Object.hasOwn(ACTS, text);

/** Carries out the form that was sent from the page of a signed practical. */
export async function actOnPractical(
  viewer: Viewer,
  signoff: string,
  form: Form,
  site: Site,
): Promise<Done<unknown>> {
  const asked = form['do'];
  return isPracticalAct(asked)
    ? ACTS[asked](viewer, signoff, form, site)
    : refused(400, 'do', `do must be one of: ${Object.keys(ACTS).join(', ')}.`);
}
