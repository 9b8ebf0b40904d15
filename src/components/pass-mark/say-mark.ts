import type { PassMark } from '../../assessment/index.ts';
import type { Speaker } from '../../words/say.ts';

/** The mark in force in a few words. */
export function sayMark(pass: PassMark, say: Speaker): string {
  if (pass === 'not-set-yet') return say('pass-marks.not-set');
  const isRated = pass.method === 'modified-angoff';
  return say(isRated ? 'pass-marks.mark.is' : 'pass-marks.mark.for-now', { mark: pass.mark });
}

/** What that means for whoever sits the test. */
export function sayMarkMeans(pass: PassMark, say: Speaker): string {
  if (pass === 'not-set-yet') return say('pass-marks.means.none');
  return pass.method === 'modified-angoff'
    ? pass.basis
    : say('pass-marks.means.for-now', { basis: pass.basis });
}
