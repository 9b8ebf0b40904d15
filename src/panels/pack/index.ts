import { fillPlaces } from '../../words/index.ts';

/** How often the site is asked how far it has come, ms. */
const ASK_EVERY = 700;

type Progress = { readonly state: string; readonly done: number; readonly all: number };

async function ask(address: string): Promise<Progress | null> {
  try {
    const reply = await fetch(address, { headers: { accept: 'application/json' } });
    return reply.ok ? ((await reply.json()) as Progress) : null;
  } catch {
    return { state: 'making', done: 0, all: 0 }; // no network for a moment: asked again
  }
}

/** Tells how far a pack has come, and shows the page anew once it is made or is gone. */
export function watchPack(): void {
  const panel = document.querySelector<HTMLElement>('[data-panel="pack"]');
  const line = panel?.querySelector('[data-progress]');
  const { job, proving = '', writing = '' } = panel?.dataset ?? {};
  if (panel == null || line == null || job === undefined) return;
  const look = async () => {
    const progress = await ask(job);
    if (progress === null || progress.state !== 'making') {
      location.reload();
      return;
    }
    const { all, done } = progress;
    if (all > 0) {
      line.textContent =
        done < all ? fillPlaces(proving, { done: String(done), all: String(all) }) : writing;
    }
    setTimeout(look, ASK_EVERY);
  };
  setTimeout(look, ASK_EVERY);
}
