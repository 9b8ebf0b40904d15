import { signal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useEffect } from 'preact/hooks';
import { say } from '../work/words.ts';

type Results = typeof import('./results.ts');

const results = signal<Results | 'failed' | null>(null);

/** Fetches what shows a result; at once when it is here already. */
export async function fetchResults(): Promise<void> {
  if (results.value !== null && results.value !== 'failed') return;
  results.value = null;
  try {
    results.value = await import('./results.ts');
  } catch {
    results.value = 'failed';
  }
}

type Props = { readonly children: (views: Results) => ComponentChildren };

/** Shows its children once what shows a result has come. */
export function WithResults({ children }: Props) {
  useEffect(() => void fetchResults(), []);
  if (results.value === null) return <p role="status">{say('results.opening')}</p>;
  if (results.value !== 'failed') return <>{children(results.value)}</>;
  return (
    <div role="alert">
      <p>{say('results.failed')}</p>
      <button type="button" class="button" onClick={() => void fetchResults()}>
        {say('results.again')}
      </button>
    </div>
  );
}
