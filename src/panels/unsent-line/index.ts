import english from '../../../content/messages/en/signing.json' with { type: 'json' };
import { here, learnSheets, sayFrom } from '../../words/spoken.ts';
import { keepSending, type Waiting, watchUnsent } from '../signing/index.ts';

const say = sayFrom('signing', english);

/** The worst of it first: what is gone, what was not taken, what is on its way. */
function sayWaiting({ missing, refused, unsent }: Waiting): string {
  if (missing > 0) return say.count('line.missing', missing);
  if (refused > 0) return say.count('line.refused', refused);
  return unsent > 0 ? say.count('line.unsent', unsent) : '';
}

/** In the strip across the top of a page: how many signed records of this device are not with the site. */
export async function showUnsent(): Promise<void> {
  const tools = document.querySelector('.strip-tools');
  if (tools === null) return;
  await learnSheets('signing');
  const place = document.createElement('span');
  place.setAttribute('role', 'status');
  const link = document.createElement('a');
  link.href = here('/practical/sheet');
  link.dataset['unsent'] = '';
  const words = document.createElement('strong');
  link.append(words);
  tools.prepend(place);
  watchUnsent((waiting) => {
    words.textContent = sayWaiting(waiting);
    if (words.textContent === '') link.remove();
    else place.append(link);
  });
  keepSending();
}
