import english from '../../../../content/messages/en/signing.json' with { type: 'json' };
import { sayFrom } from '../../../words/spoken.ts';

const say = sayFrom('signing', english);

/** Longest side, px: enough to read a rule in the picture. */
const LONGEST_SIDE = 1600;
const QUALITIES = [0.85, 0.7, 0.55] as const;
/** Each round smaller than the one before, until it fits. */
const SHRINK = 0.75;

const toJpeg = (canvas: HTMLCanvasElement, quality: number): Promise<Blob | null> =>
  new Promise((done) => canvas.toBlob(done, 'image/jpeg', quality));

function draw(picture: ImageBitmap, longest: number): HTMLCanvasElement {
  const scale = Math.min(1, longest / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  const context = canvas.getContext('2d');
  if (context === null) throw new Error(say('photo.unread'));
  // what is see-through would come out black
  context.fillStyle = '#fff';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(picture, 0, 0, canvas.width, canvas.height);
  return canvas;
}

/**
 * A picture as a fresh JPEG of at most `most` bytes, turned the way it was taken.
 * @throws Error for a file that no picture can be read from
 */
export async function drawPhoto(file: Blob, most: number): Promise<ArrayBuffer> {
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' }).catch(() => {
    throw new Error(say('photo.unread'));
  });
  try {
    for (let longest = LONGEST_SIDE; longest > 100; longest *= SHRINK) {
      const canvas = draw(picture, longest);
      for (const quality of QUALITIES) {
        const drawn = await toJpeg(canvas, quality);
        if (drawn !== null && drawn.size <= most) return await drawn.arrayBuffer();
      }
    }
  } finally {
    picture.close();
  }
  throw new Error(say('photo.unread'));
}
