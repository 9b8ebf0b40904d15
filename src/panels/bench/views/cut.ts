/** The trial cut, fetched when its paper is first opened, or the notebook has one to tell of. */
export { CutInShort } from './cut-in-short.tsx';
export { CutPaper } from './cut-paper.tsx';
