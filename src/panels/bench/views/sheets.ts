/** The papers behind the job card: fetched with the first one turned to. */
export { FaultPaper } from './fault-paper.tsx';
export { NotebookPaper } from './notebook-paper.tsx';
export { PartsPaper } from './parts-paper.tsx';
