/** Reading what somebody wants checked, for page, file and tests alike. */
export * from './read-question.ts';
