import type { PassMark } from '../../assessment/index.ts';

/** The mark in force in a few words. */
export function sayMark(pass: PassMark): string {
  if (pass === 'not-set-yet') return 'Not set yet';
  return pass.method === 'modified-angoff'
    ? `${pass.mark} of 100`
    : `${pass.mark} of 100, for the time being`;
}

/** What that means for whoever sits the test. */
export function sayMarkMeans(pass: PassMark): string {
  if (pass === 'not-set-yet') {
    return 'Nobody passes this test by its score until two trainers have rated it and one has put a mark in force. Until then it shows the score and what was missed.';
  }
  return pass.method === 'modified-angoff'
    ? pass.basis
    : `${pass.basis} Rate the test to put a mark set by a method in its place.`;
}
