import { useEffect, useRef, useState } from 'preact/hooks';
import {
  type Draft,
  type DraftContext,
  readBladeOf,
  readingsOf,
  type Settled,
} from '../../competence/sheet/index.ts';
import { postJson } from '../signing/index.ts';

export type Verdicts = {
  readonly settled: readonly Settled[];
  /** whether `settled` belongs to what is typed now */
  readonly state: 'current' | 'waiting' | 'no-blade' | 'not-reached';
  readonly message: string;
};

/** Wait after the last keystroke, ms. */
const PAUSE = 350;

/** Has the readings judged by the site's own engine while the sheet is filled in. */
export function useVerdicts(draft: Draft, context: DraftContext): Verdicts {
  const blade = readBladeOf(draft);
  const readings = readingsOf(draft, context.unit.settings, context.instruments);
  const { person, bench, work, unit } = context.subject;
  const body = blade === null ? '' : JSON.stringify({ person, bench, work, unit, blade, readings });
  const [answer, setAnswer] = useState<{ body: string; settled: Settled[]; message: string }>({
    body: '',
    settled: [],
    message: '',
  });
  const [tries, setTries] = useState(0);
  const asked = useRef('');

  useEffect(() => {
    asked.current = body;
    if (body === '' || readings.length === 0) return;
    const timer = setTimeout(async () => {
      const reply = await postJson<{ settled: Settled[] }>(
        '/api/practicals/readings',
        JSON.parse(body),
      );
      if (asked.current !== body) return;
      if (reply.ok) setAnswer({ body, settled: reply.value.settled, message: '' });
      else setAnswer((before) => ({ ...before, message: reply.message }));
    }, PAUSE);
    return () => clearTimeout(timer);
  }, [body, tries]);

  useEffect(() => {
    const again = () => setTries((count) => count + 1);
    window.addEventListener('online', again);
    return () => window.removeEventListener('online', again);
  }, []);

  if (readings.length === 0) return { settled: [], state: 'current', message: '' };
  if (body === '') return { settled: [], state: 'no-blade', message: '' };
  if (answer.body === body) return { settled: answer.settled, state: 'current', message: '' };
  if (answer.message !== '') {
    return { settled: [], state: 'not-reached', message: answer.message };
  }
  return { settled: [], state: 'waiting', message: '' };
}
