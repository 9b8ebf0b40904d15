import type { Attempt } from '../work/attempt.ts';
import { sayResult } from '../work/result-words.ts';
import { SettingResults } from './setting-results.tsx';

/** What leaves the bench as it is. */
const LEAVES_ALONE: readonly string[] = ['look', 'measure', 'try'];

/** What the server said of the settings, and whether the bench has been changed since. */
export function VerdictSection({ attempt }: { readonly attempt: Attempt }) {
  const verdict = attempt.verdict.value;
  if (verdict === null) return null;
  const isOld = attempt.done.value
    .slice(verdict.at)
    .some((one) => !LEAVES_ALONE.includes(one.action.do));
  return (
    <section class="bench-verdict">
      <h3 id="bench-verdict" tabIndex={-1}>
        {sayResult('verdict.title')}
      </h3>
      {isOld && <p class="hint">{sayResult('verdict.old')}</p>}
      <SettingResults settings={verdict.given.settings} />
    </section>
  );
}
