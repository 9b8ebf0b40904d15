export { canKeep, keepNow, keepQuietly, sendToWorker } from './kept-course.ts';
