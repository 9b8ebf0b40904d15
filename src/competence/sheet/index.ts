/** The practical sheet's sums. No schema library in here: the browser carries this. */
export * from './blockers.ts';
export * from './check-draft.ts';
export * from './draft.ts';
export * from './read-length.ts';
export * from './settled.ts';
export * from './sheet.ts';
export * from './write-statement.ts';
