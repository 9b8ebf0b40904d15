import { useState } from 'preact/hooks';
import type { Keeping } from './use-kept-draft.ts';

const clock = (at: Date): string =>
  at.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });
const day = (at: Date): string =>
  at.toLocaleDateString('en-GB', { day: 'numeric', month: 'long', year: 'numeric' });

function say(keeping: Keeping): string {
  switch (keeping.state) {
    case 'opening':
      return 'Looking for a sheet left on this device ...';
    case 'keeping':
      return 'Writing to this device ...';
    case 'kept':
      return keeping.at === null
        ? 'What you type is kept on this device, also through a reload or a flat battery.'
        : `Kept on this device at ${clock(keeping.at)}.`;
    case 'not-kept':
      return 'This browser keeps nothing on this device: do not reload or leave this page before you have signed.';
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
      <p role="status">{say(keeping)}</p>
      {restoredFrom !== null && (
        <div class="notice">
          <div>
            <p>
              Your sheet of {day(restoredFrom)}, {clock(restoredFrom)} is back as you left it.
            </p>
            {isAsking ? (
              <p>
                Throw away everything typed here?{' '}
                <button
                  class="button"
                  type="button"
                  onClick={() => {
                    setAsking(false);
                    startAfresh();
                  }}
                >
                  Throw it away
                </button>{' '}
                <button class="button button--quiet" type="button" onClick={() => setAsking(false)}>
                  Keep it
                </button>
              </p>
            ) : (
              <button class="button button--quiet" type="button" onClick={() => setAsking(true)}>
                Start an empty sheet
              </button>
            )}
          </div>
        </div>
      )}
    </div>
  );
}
