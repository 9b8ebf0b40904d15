import { effect, signal } from '@preact/signals';

const KEY = 'bench-in-words';

function recall(): boolean | null {
  try {
    const kept = localStorage.getItem(KEY);
    return kept === null ? null : kept === 'open';
  } catch {
    return null;
  }
}

/** Whether a part's description lies open; null until the trainee has chosen. Kept for next time. */
export const wordsOpen = signal<boolean | null>(recall());

effect(() => {
  if (wordsOpen.value === null) return;
  try {
    localStorage.setItem(KEY, wordsOpen.value ? 'open' : 'shut');
  } catch {
    // storage refused: the choice lasts for this page
  }
});
