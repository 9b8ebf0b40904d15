import doors from '../../../content/messages/de/doors.json' with { type: 'json' };
import frame from '../../../content/messages/de/frame.json' with { type: 'json' };
import home from '../../../content/messages/de/home.json' with { type: 'json' };
import names from '../../../content/messages/de/names.json' with { type: 'json' };
import people from '../../../content/messages/de/people.json' with { type: 'json' };
import type { Catalogue } from './index.ts';

/** The interface in German. */
export const DE: Partial<Catalogue> = {
  frame,
  home,
  doors,
  names,
  people,
};
