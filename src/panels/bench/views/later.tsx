import { signal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useEffect } from 'preact/hooks';
import { say } from '../work/words.ts';

type Props<T> = { readonly children: (part: T) => ComponentChildren };

/** A part of the panel that is fetched when it is first wanted, and again when that failed. */
function later<T extends object>(load: () => Promise<T>) {
  const part = signal<T | 'failed' | null>(null);

  async function fetchIt(): Promise<void> {
    if (part.value !== null && part.value !== 'failed') return;
    part.value = null;
    try {
      part.value = await load();
    } catch {
      part.value = 'failed';
    }
  }

  /** Shows its children once the part has come. */
  function With({ children }: Props<T>) {
    useEffect(() => void fetchIt(), []);
    if (part.value === null) return <p role="status">{say('later.opening')}</p>;
    if (part.value !== 'failed') return <>{children(part.value)}</>;
    return (
      <div role="alert">
        <p>{say('later.failed')}</p>
        <button type="button" class="button" onClick={() => void fetchIt()}>
          {say('later.again')}
        </button>
      </div>
    );
  }

  return { fetchIt, With };
}

/** What shows a verdict or a result: fetched when the server has given the first one. */
export const { fetchIt: fetchResults, With: WithResults } = later(() => import('./results.ts'));

/** The trial cut, with the reckoning behind it: fetched when its paper is first opened. */
export const { With: WithCut } = later(() => import('./cut.ts'));

/** Figures to say before anything is tried: fetched where a task asks for them. */
export const { With: WithBeforehand } = later(() => import('./beforehand-paper.tsx'));

/** The rack: fetched where something is to be chosen. */
export const { With: WithRack } = later(() => import('../../rack/rack-paper.tsx'));

/** The papers behind the job card: fetched with the first one turned to. */
export const { fetchIt: fetchSheets, With: WithSheets } = later(() => import('./sheets.ts'));

/** The close-up of a scale: fetched with the first tool laid. */
export const { With: WithScale } = later(() => import('./scale-card.tsx'));

/** What tells the bench in words: fetched with the first sheet opened. */
export const { fetchIt: fetchTold, With: WithTold } = later(() => import('./told.tsx'));
