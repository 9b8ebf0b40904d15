import { useState } from 'preact/hooks';
import { clockIn } from '../../words/index.ts';
import { pageLanguage } from '../../words/spoken.ts';
import { say, sayDay } from './say.ts';
import type { Keeping } from './use-kept-draft.ts';

const clock = (at: Date): string => clockIn(pageLanguage(), at);
/** The day by this device's own calendar. */
const day = (at: Date): string =>
  sayDay(new Date(at.getTime() - at.getTimezoneOffset() * 60_000).toISOString());

function sayKeeping(keeping: Keeping): string {
  switch (keeping.state) {
    case 'opening':
      return say('kept.opening');
    case 'keeping':
      return say('kept.keeping');
    case 'kept':
      return keeping.at === null ? say('kept') : say('kept.at', { time: clock(keeping.at) });
    case 'not-kept':
      return say(keeping.why === 'no-room' ? 'kept.no-room' : 'kept.not');
  }
}

type Props = {
  readonly keeping: Keeping;
  readonly restoredFrom: Date | null;
  readonly startAfresh: () => void;
};

/** Whether the sheet is safe on this device, and the one way to throw it away. */
export function KeepingLine({ keeping, restoredFrom, startAfresh }: Props) {
  const [isAsking, setAsking] = useState(false);
  return (
    <div class="keeping">
      <p role="status">{sayKeeping(keeping)}</p>
      {restoredFrom !== null && (
        <div class="notice">
          <div>
            <p>{say('restored', { day: day(restoredFrom), time: clock(restoredFrom) })}</p>
            {isAsking ? (
              <p>
                {say('throw.ask')}{' '}
                <button
                  class="button"
                  type="button"
                  onClick={() => {
                    setAsking(false);
                    startAfresh();
                  }}
                >
                  {say('throw')}
                </button>{' '}
                <button class="button button--quiet" type="button" onClick={() => setAsking(false)}>
                  {say('throw.keep')}
                </button>
              </p>
            ) : (
              <button class="button button--quiet" type="button" onClick={() => setAsking(true)}>
                {say('afresh')}
              </button>
            )}
          </div>
        </div>
      )}
    </div>
  );
}
