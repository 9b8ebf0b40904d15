/** The practical sheet's sums. No schema library in here: the browser carries this. */
export * from './read-length.ts';
