export { mountBench } from './mount.tsx';
