import { CanvasTexture, DataTexture, SRGBColorSpace, type Texture } from 'three';

/**
 * A texture drawn with a 2D canvas: graduations and figures. Where there is no document (tests in
 * Node) it is one clear pixel, so that shapes and counts stay the same.
 */
export function letteringTexture(
  width: number,
  height: number,
  draw: (pen: CanvasRenderingContext2D) => void,
): Texture {
  const pen = typeof document === 'undefined' ? null : canvasOf(width, height).getContext('2d');
  if (pen === null) return new DataTexture(new Uint8Array(4), 1, 1);
  draw(pen);
  const texture = new CanvasTexture(pen.canvas);
  texture.colorSpace = SRGBColorSpace;
  texture.anisotropy = 8;
  return texture;
}

function canvasOf(width: number, height: number): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  return canvas;
}

/** The site's own face for figures when it has loaded, else whatever the device has. */
export const figuresFont = (pixels: number, weight = 600): string =>
  `${weight} ${pixels}px "Atkinson Hyperlegible Mono", ui-monospace, Menlo, monospace`;
