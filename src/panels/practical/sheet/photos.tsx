import { useEffect, useState } from 'preact/hooks';
import { type DraftPhoto, MOST_PHOTOS } from '../../../competence/sheet/index.ts';
import { dropPhoto, keepPhoto, photoUrl } from '../../signing/index.ts';
import { say } from '../say.ts';

/** One photo, small, with the way to take it off. */
function Thumbnail({
  photo,
  label,
  remove,
}: {
  readonly photo: DraftPhoto;
  readonly label: string;
  readonly remove: () => void;
}) {
  const [url, setUrl] = useState<string | null>(null);
  useEffect(() => {
    photoUrl(photo.digest)
      .then(setUrl)
      .catch(() => setUrl(null));
  }, [photo.digest]);
  return (
    <li class="photo">
      {url === null ? (
        <span class="quiet">{say('photo.gone')}</span>
      ) : (
        <img src={url} alt={label} />
      )}
      <button class="button button--quiet" type="button" onClick={remove}>
        {say('photo.remove')}
        <span class="visually-hidden"> {label}</span>
      </button>
    </li>
  );
}

type Props = {
  readonly unit: string;
  readonly criterion: string | null;
  /** what the photo is of, for those who do not see it */
  readonly of: string;
  readonly photos: readonly DraftPhoto[];
  readonly put: (photos: readonly DraftPhoto[]) => void;
};

/** Photos of one thing watched: taken with the camera of the device, kept on it until they are with the site. */
export function Photos({ unit, criterion, of, photos, put }: Props) {
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const own = photos.filter((one) => one.unit === unit && one.criterion === criterion);
  const isFull = photos.filter((one) => one.unit === unit).length >= MOST_PHOTOS;
  const id = `photo.${criterion ?? 'machine'}`;

  const take = async (file: File | undefined) => {
    if (file === undefined) return;
    setBusy(true);
    setProblem(null);
    try {
      const { digest } = await keepPhoto(file);
      // the same picture twice in one unit is one picture
      if (!photos.some((one) => one.unit === unit && one.digest === digest)) {
        put([...photos, { digest, unit, criterion }]);
      }
    } catch (error) {
      const noRoom = error instanceof DOMException && error.name === 'QuotaExceededError';
      const reason = error instanceof Error ? error.message : String(error);
      setProblem(noRoom ? say('photo.no-room') : reason);
    }
    setBusy(false);
  };
  const remove = (photo: DraftPhoto) => {
    put(photos.filter((one) => one !== photo));
    if (!photos.some((one) => one !== photo && one.digest === photo.digest)) {
      void dropPhoto(photo.digest);
    }
  };
  return (
    <div class="photos">
      {own.length > 0 && (
        <ul>
          {own.map((photo, index) => (
            <Thumbnail
              key={photo.digest}
              photo={photo}
              label={say('photo.of', { count: index + 1, of })}
              remove={() => remove(photo)}
            />
          ))}
        </ul>
      )}
      {!isFull && (
        <label class="button button--quiet photo-take">
          <input
            id={id}
            type="file"
            accept="image/*"
            capture="environment"
            disabled={busy}
            onChange={(event) => {
              const field = event.currentTarget;
              void take(field.files?.[0]).then(() => {
                field.value = '';
              });
            }}
          />
          <span>
            {say(busy ? 'photo.keeping' : 'photo.take')}
            <span class="visually-hidden"> {of}</span>
          </span>
        </label>
      )}
      {problem !== null && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}
