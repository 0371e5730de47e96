import { useEffect, useRef } from 'react';

/** Help text of the focused field. Hidden from screen readers: the field has the same description. */
export function FieldHelp({ help }: { help: string }) {
  const foot = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    // The help text may cover the field.
    const field = document.activeElement;
    if (help !== '' && field !== null && foot.current?.parentElement?.contains(field))
      field.scrollIntoView({ block: 'nearest' });
  }, [help]);
  if (help === '') return null;
  return (
    <p ref={foot} className="field-help" aria-hidden="true">
      {help}
    </p>
  );
}
