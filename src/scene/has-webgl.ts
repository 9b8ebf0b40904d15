/** Whether this device can draw the bench. Makes and lets go of one tiny context. */
export function hasWebGL(): boolean {
  if (typeof document === 'undefined') return false;
  try {
    const context = document.createElement('canvas').getContext('webgl2');
    context?.getExtension('WEBGL_lose_context')?.loseContext();
    return context !== null;
  } catch {
    return false;
  }
}
