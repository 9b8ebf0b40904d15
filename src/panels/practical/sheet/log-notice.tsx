import { useEffect, useState } from 'preact/hooks';
import { here } from '../../../words/spoken.ts';
import { forkedLog, LOG_CHANGED } from '../../signing/index.ts';
import { Mark } from '../mark.tsx';
import { say } from '../say.ts';

/** Says loud that the log of the site no longer fits what this device kept, until a person has dealt with it. */
export function LogNotice() {
  const [isForked, setForked] = useState(false);
  useEffect(() => {
    const look = () =>
      void forkedLog().then(
        (found) => setForked(found !== null),
        () => undefined,
      );
    look();
    addEventListener(LOG_CHANGED, look);
    return () => removeEventListener(LOG_CHANGED, look);
  }, []);
  if (!isForked) return null;
  return (
    <div class="notice" data-kind="prohibition" role="alert">
      <Mark kind="prohibition" />
      <div>
        <p>
          <strong>{say('log.forked')}</strong> {say('log.forked.do')}
        </p>
        <p>
          <a href={here('/devices')}>{say('log.forked.see')}</a>
        </p>
      </div>
    </div>
  );
}
