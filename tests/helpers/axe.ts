import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';

/**
 * The accessibility check of a page, asked for what it objects to and nothing else. It is run in the page itself: our
 * pages hold no frames of other sites, for whose sake a second, empty page would be opened for every check.
 */
export const axe = (page: Page): AxeBuilder =>
  new AxeBuilder({ page }).setLegacyMode().options({ resultTypes: ['violations'] });
