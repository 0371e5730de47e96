interface PictureNoticeProps {
  /** Why there is no picture; undefined if the graphics context is lost and may be restored. */
  why: string | undefined;
  onTry(): void;
}

/** Notice that outlines replace the picture, with the reason. */
export function PictureNotice({ why, onTry }: PictureNoticeProps) {
  return (
    <div className="picture-notice" role="status">
      <p>
        <strong>
          {why === undefined ? 'The graphics card dropped the picture.' : `No picture: ${why}.`}
        </strong>{' '}
        Outlines and sections are drawn instead, without the gap tint. Everything else works.
      </p>
      <button type="button" onClick={onTry}>
        Try again
      </button>
    </div>
  );
}
