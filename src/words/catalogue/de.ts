import frame from '../../../content/messages/de/frame.json' with { type: 'json' };
import type { Catalogue } from './index.ts';

/** The interface in German. */
export const DE: Partial<Catalogue> = {
  frame,
};
