import english from '../../../content/messages/en/search.json' with { type: 'json' };
import { formatLength } from '../../geometry/index.ts';
import { figuresIn, languageOfPath } from '../../words/index.ts';
import { learnSheets, pageLanguage, pageUnit, sayFrom } from '../../words/spoken.ts';
import { type Finder, type Hit, openIndex, type ServedIndex } from './search-index.ts';
import { markTerms, type Piece, snippetOf } from './snippet.ts';

export {
  buildIndex,
  type Entry,
  type EntryKind,
  openIndex,
  type ServedIndex,
} from './search-index.ts';
export { holdLength } from './search-term.ts';

/** Browser code of the search page: the index comes when the box is used, and stays on the device. */

const say = sayFrom('search', english);
const MOST_SHOWN = 20;
/** ms without a key before the list changes, so that it is not read out at every letter */
const PAUSE = 180;

async function fetchIndex(): Promise<Finder | null> {
  try {
    const reply = await fetch(`/search/${pageLanguage()}.json`);
    return reply.ok ? openIndex((await reply.json()) as ServedIndex) : null;
  } catch {
    return null;
  }
}

function node(piece: Piece): Node {
  if (!('mm' in piece)) {
    if (piece.kind === 'text') return document.createTextNode(piece.text);
    const mark = document.createElement('mark');
    mark.textContent = piece.text;
    return mark;
  }
  // the unit switch in the header rewrites every such span
  const length = document.createElement('span');
  length.className = 'length';
  length.dataset['mm'] = String(piece.mm);
  length.textContent = figuresIn(pageLanguage(), formatLength(piece.mm, pageUnit(), 1));
  return length;
}

function resultOf({ kind, href, title, section, text, terms }: Hit): HTMLLIElement {
  const item = document.createElement('li');
  // what is not translated yet is found in English, and read out so
  item.lang = languageOfPath(href);
  const head = document.createElement('h2');
  const link = document.createElement('a');
  link.href = href;
  const name = section === '' ? title : `${title}: ${section}`;
  link.append(...markTerms(name, terms, pageLanguage()).map(node));
  head.append(link);
  const what = document.createElement('p');
  what.className = 'quiet search-kind';
  what.textContent = say(`kind.${kind}`);
  const around = document.createElement('p');
  around.append(...snippetOf(text, terms, pageLanguage()).map(node));
  item.append(head, what, around);
  return item;
}

/** Down and up walk from the box through the results and back. */
function walkByArrows(box: HTMLInputElement, list: HTMLElement): void {
  document.addEventListener('keydown', (event) => {
    if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return;
    const stops = [box, ...list.querySelectorAll<HTMLElement>('a')];
    const at = stops.indexOf(document.activeElement as HTMLElement);
    const next = stops[at + (event.key === 'ArrowDown' ? 1 : -1)];
    if (at < 0 || next === undefined) return;
    event.preventDefault();
    next.focus();
  });
}

/** Starts the search page. Without script the page leads to the glossary and the lessons instead. */
export async function startSearch(): Promise<void> {
  const form = document.querySelector<HTMLFormElement>('[data-search]');
  const box = form?.querySelector<HTMLInputElement>('input[type="search"]');
  const list = document.querySelector<HTMLElement>('[data-search-results]');
  const status = document.querySelector<HTMLElement>('[data-search-status]');
  if (!form || !box || !list || !status) return;
  await learnSheets('search');
  let finder: Promise<Finder | null> | null = null;
  const load = () => (finder ??= fetchIndex());
  let asked = 0;

  const show = async (): Promise<void> => {
    const turn = ++asked;
    const typed = box.value.trim();
    const address = new URL(location.href);
    if (typed === '') address.searchParams.delete('q');
    else address.searchParams.set('q', typed);
    history.replaceState(history.state, '', address);
    if (typed === '') {
      list.replaceChildren();
      status.textContent = '';
      return;
    }
    const find = await load();
    // a later key has asked again meanwhile
    if (turn !== asked) return;
    if (find === null) {
      finder = null;
      list.replaceChildren();
      status.textContent = say('failed');
      return;
    }
    const hits = find(typed);
    list.replaceChildren(...hits.slice(0, MOST_SHOWN).map(resultOf));
    status.textContent =
      hits.length > MOST_SHOWN
        ? say('too-many', { count: hits.length, shown: MOST_SHOWN })
        : say.count('found', hits.length, { typed });
  };

  let waiting: ReturnType<typeof setTimeout> | undefined;
  box.addEventListener('focus', () => void load(), { once: true });
  box.addEventListener('input', () => {
    clearTimeout(waiting);
    waiting = setTimeout(() => void show(), PAUSE);
  });
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    clearTimeout(waiting);
    void show().then(() => list.querySelector<HTMLElement>('a')?.focus());
  });
  walkByArrows(box, list);
  const given = new URLSearchParams(location.search).get('q');
  if (given !== null && box.value === '') box.value = given;
  if (box.value !== '') void show();
}
