/** The checks of a stored record, for the site and the browser alike. */
export * from './check-pieces.ts';
