/** Pages of lessons fetched for this round. */
const pages = new Map<string, Promise<Document | null>>();

async function fetchPage(href: string): Promise<Document | null> {
  try {
    const reply = await fetch(href);
    if (!reply.ok) return null;
    return new DOMParser().parseFromString(await reply.text(), 'text/html');
  } catch {
    return null;
  }
}

/**
 * A question as its lesson's page has it, ready to be put into this page; null where the page does not come
 * or no longer asks it. The lessons are the only place questions are written down.
 */
export async function fetchQuestion(href: string, question: string): Promise<HTMLElement | null> {
  const known = pages.get(href) ?? fetchPage(href);
  pages.set(href, known);
  const page = await known;
  // a page that did not come is asked for again next time
  if (page === null) pages.delete(href);
  const section = page?.querySelector<HTMLElement>(`[id="question-${question}"]`);
  if (page === null || !section) return null;
  const taken = document.importNode(section, true);
  // a lesson that is not translated yet is read out in its own language
  const { lang } = page.documentElement;
  if (lang !== document.documentElement.lang) taken.lang = lang;
  return taken;
}
