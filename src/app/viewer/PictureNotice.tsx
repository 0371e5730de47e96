interface PictureNoticeProps {
  /** Why there is no picture; undefined where the graphics card dropped it and may give it back. */
  why: string | undefined;
  onTry(): void;
}

/** Says that outlines stand in place of the picture, and why. */
export function PictureNotice({ why, onTry }: PictureNoticeProps) {
  return (
    <div className="picture-notice" role="status">
      <p>
        <strong>
          {why === undefined ? 'The graphics card dropped the picture.' : `No picture: ${why}.`}
        </strong>{' '}
        Outlines and sections are drawn in its place, without the gap tint. All else works.
      </p>
      <button type="button" onClick={onTry}>
        Try again
      </button>
    </div>
  );
}
