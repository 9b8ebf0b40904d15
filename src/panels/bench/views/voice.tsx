import { useEffect, useState } from 'preact/hooks';
import type { Desk } from '../work/desk.ts';
import { say } from '../work/words.ts';
import { Mark } from './mark.tsx';

/** ms of quiet before a screen reader is told: ten steps in a row are one announcement. */
const QUIET = 350;

/** The line under the bench that says what came of the last thing done. */
export function Voice({ desk }: { readonly desk: Desk }) {
  const { text, tone } = desk.said.value;
  const [spoken, speak] = useState('');
  useEffect(() => {
    const wait = setTimeout(() => speak(text), QUIET);
    return () => clearTimeout(wait);
  }, [text]);
  return (
    <div class="bench-voice" data-tone={tone}>
      <p aria-hidden="true">
        {tone === 'danger' && <Mark kind="warning" />}
        <span>{text === '' ? say('voice.start') : text}</span>
      </p>
      <p class="unseen" role="status">
        {spoken}
      </p>
    </div>
  );
}
